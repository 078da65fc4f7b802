//! The process sheet: everything in one page.
use super::words::{cautions, figures, limits, list, settings};
use crate::page::{Card, Part, Shown, Span, Table, plain, shown};
use crate::plan::sheet::*;
use std::collections::BTreeMap;

impl Sheet {
    pub(super) fn process(&self) -> Vec<Part<'_>> {
        let mut parts = vec![self.lead()];
        parts.extend(self.findings_part());
        parts.extend(self.drawing_part());
        parts.extend(self.bar_part());
        parts.extend(self.operations.iter().map(|operation| self.operation_part(operation)));
        let minutes = shown::time(self.minutes_per_part);
        parts.push(Part::Paragraph(plain(format!("All operations: {minutes} a part."))));
        parts.extend(self.joint.iter().chain(&self.joints).flat_map(joint_parts));
        parts.extend(self.stacks.iter().flat_map(stack_parts));
        if !self.gauges.is_empty() {
            parts.push(Part::Heading("Gauges".into()));
            parts.extend(self.gauge_parts());
        }
        parts.push(Part::Heading("Cautions".into()));
        parts.push(cautions(&self.cautions));
        parts.extend(self.assumed_part());
        parts.extend(self.stamp_part());
        parts
    }

    fn findings_part(&self) -> [Part<'_>; 2] {
        let found = match self.findings.is_empty() {
            true => Part::Paragraph(plain("No findings.")),
            false => Part::List(self.findings.iter().map(|one| self.finding(one)).collect()),
        };
        [Part::Heading("Findings".into()), found]
    }

    /// What was assumed, once for all places that take the same for the same reason.
    fn assumed_part<'s>(&'s self) -> Vec<Part<'s>> {
        if self.assumed.is_empty() {
            return vec![];
        }
        let mut groups: Vec<Vec<&AssumedLine>> = vec![];
        let mut known = BTreeMap::new();
        for one in &self.assumed {
            let key = (field_of(&one.place), &one.value, &one.reason);
            let at = *known.entry(key).or_insert(groups.len());
            match groups.get_mut(at) {
                Some(group) => group.push(one),
                None => groups.push(vec![one]),
            }
        }
        let row = |group: &Vec<&'s AssumedLine>| -> [Shown<'s>; 4] {
            let of = joined(group.iter().map(|one| self.named(&one.place)));
            let field = joined(group.iter().map(|one| (&*one.place).into()));
            let [value, reason] =
                group.first().map_or(["", ""], |one| [&*one.value, &*one.reason]).map(Shown::Borrowed);
            [of, field, value, reason]
        };
        let table = Table::new(["of", "field", "assumed", "why"], groups.iter().map(row));
        vec![Part::Heading("Assumed".into()), Part::Table(table)]
    }

    fn drawing_part<'s>(&'s self) -> [Part<'s>; 2] {
        let row = |one: &'s CharacteristicLine| -> [Shown<'s>; 10] {
            let CharacteristicLine { bought, made_by, .. } = one;
            let met: Shown<'_> = match (bought, made_by.is_empty()) {
                (true, _) => "as bought".into(),
                (_, false) => list(made_by).into(),
                (false, true) => "NOT MADE".into(),
            };
            let [number, name, limits, requirement, roughness, form, plating] = one.drawn();
            let capability = one.capability.map_or("".into(), |capability| shown::stated(capability).into());
            [number, name, limits, requirement, roughness, form, plating, met, one.proof(), capability]
        };
        let head = [
            "No.",
            "characteristic",
            "limits",
            "size and form",
            "Ra, at most",
            "form deviation, at most",
            "before plating",
            "made in operation",
            "inspection",
            "Cpk, at least",
        ];
        let table = Table::new(head, self.characteristics.iter().map(row));
        [Part::Heading("Drawing, and first-article list".into()), Part::Table(table)]
    }

    fn bar_part(&self) -> Vec<Part<'_>> {
        let mut parts = vec![Part::Heading("Bar".into())];
        parts.extend(self.bar_lines().into_iter().map(|line| Part::Paragraph(plain(line))));
        parts
    }

    /// The bar, what a part takes of it, and how many are needed.
    pub(super) fn bar_lines(&self) -> Vec<String> {
        let BarLines { section, designation, length, part_length, parts_per_bar, bars, .. } = &self.bar;
        let mut lines = vec![format!("The bar is {}, {length} long.", limits(section, designation))];
        if let (Some(part), Some(count)) = (part_length, parts_per_bar) {
            let count = shown::count(*count, "part");
            lines.push(format!("A part takes {part} and the kerf: {count} from a bar."));
        }
        if let Some(bars) = bars {
            let parts = shown::count(self.quantity.into(), "part");
            lines.push(format!("{} for {parts}.", shown::count(*bars, "bar")));
        }
        lines
    }

    fn operation_part<'s>(&'s self, operation: &'s OperationLines) -> Part<'s> {
        let mut parts = vec![];
        parts.extend(
            operation.reason.iter().map(|reason| Part::Paragraph(plain(["Why: ", &**reason, "."].concat()))),
        );
        parts.extend(self.assumed_of(operation));
        parts.extend([
            Part::Table(self.asked(&operation.characteristics)),
            settings(operation),
            cautions(&operation.cautions),
        ]);
        Part::Card(Card {
            number: operation.number.to_string(),
            title: &operation.name,
            note: operation.note(),
            parts,
        })
    }

    /// The gauges of the standard, and what each member proves.
    pub(super) fn gauge_parts<'s>(&'s self) -> Vec<Part<'s>> {
        let of = |gauge: &GaugeLine| -> Shown<'static> {
            match (gauge.characteristic, &gauge.joint) {
                (Some(number), _) => format!("No. {number}").into(),
                (None, Some(joint)) => ["hub bore, ", &**joint].concat().into(),
                (None, None) => "hub bore".into(),
            }
        };
        let row = |gauge: &'s GaugeLine| -> [Shown<'s>; 5] {
            let class = [&*gauge.class, " (", &*gauge.basis, ")"].concat();
            [of(gauge), gauge.form.name().into(), class.into(), (&*gauge.go).into(), (&*gauge.no_go).into()]
        };
        let table = Table::new(["for", "form", "class", "GO", "NO-GO"], self.gauges.iter().map(row));
        let proofs = self.gauges.iter().flat_map(|gauge| {
            let [go, no_go] = [("GO", &gauge.go_proves), ("NO-GO", &gauge.no_go_proves)];
            [go, no_go].map(|(member, proves)| {
                let name = [&*of(gauge), ", ", member, "."].concat();
                vec![Span::Strong(name.into()), Span::Plain([" ", &**proves].concat().into())]
            })
        });
        vec![Part::Table(table), Part::List(proofs.collect())]
    }

    fn stamp_part(&self) -> [Part<'_>; 2] {
        let Stamp { tenths, document, sha256, tables } = &self.stamp;
        let made = format!("tenths {tenths}, document version {document}");
        let hash = format!("SHA-256 of the plan: {sha256}");
        let tables = tables.iter().map(|table| plain(&**table));
        let lines = [plain(made)].into_iter().chain(tables).chain([plain(hash)]);
        [Part::Heading("Stamp".into()), Part::List(lines.collect())]
    }
}

/// Texts in one, with semicolons between; a single one stays where it is.
fn joined<'s>(mut texts: impl Iterator<Item = Shown<'s>>) -> Shown<'s> {
    let mut joined = texts.next().unwrap_or_default();
    texts.for_each(|text| joined.to_mut().extend(["; ", &*text]));
    joined
}

/// The field at the end of a pointer, without the place in its list: `tool/name` of `/operations/3/tool/name`.
fn field_of(place: &str) -> &str {
    place.splitn(4, '/').nth(3).unwrap_or(place)
}

impl OperationLines {
    /// Where it is done and how long it takes, for the edge of a card.
    pub(super) fn note(&self) -> String {
        let mut note = String::new();
        if let Some(machine) = &self.machine {
            note.extend([&**machine, "; "]);
        }
        if let Some(station) = &self.station {
            note.extend(["station ", &**station, "; "]);
        }
        if self.setup > 0.0 {
            note.extend(["set-up ", &*shown::time(self.setup), "; "]);
        }
        note.extend([&*shown::time(self.minutes_per_part), " a part"]);
        note
    }
}

fn joint_parts(joint: &JointLines) -> Vec<Part<'_>> {
    let is_plain = joint.kind == "plain";
    let (title, with_lower, with_higher) = match is_plain {
        true => ("Pressed joint", ", with the lower friction", ", with the higher friction"),
        false => ("Knurled joint: an ESTIMATE", "", ""),
    };
    let title = joint.name.as_ref().map_or(title.into(), |name| [title, ": ", name].concat().into());
    let what = if is_plain { "Interference" } else { "The crests overlap the bore by" };
    let JointLines { least_interference: least, greatest_interference: greatest, .. } = joint;
    let bore = limits(&joint.bore, &joint.bore_designation);
    let words = format!("The bore is {bore}. {what} {least} to {greatest}.");
    let mut parts = vec![Part::Heading(title), Part::Paragraph(plain(words))];
    for (title, friction, list) in
        [("At its loosest", with_lower, &joint.loosest), ("At its tightest", with_higher, &joint.tightest)]
    {
        if !list.is_empty() {
            parts.push(Part::Paragraph(plain(format!("{title}{friction}:"))));
            parts.push(Part::Table(figures("figure", list)));
        }
    }
    parts
}

fn stack_parts<'s>(stack: &'s StackLines) -> Vec<Part<'s>> {
    let StackLines { name, wanted, worst_case, sampled, contributions, .. } = stack;
    let closes = |closes: bool| if closes { "closes" } else { "DOES NOT CLOSE" };
    let verdict = format!(
        "Wanted {wanted}; worst case {worst_case}. In the worst case it {}, statistically it {}.",
        closes(stack.closes_in_worst_case),
        closes(stack.closes_statistically)
    );
    let mut parts = vec![
        Part::Heading(["Stack: ", &**name].concat().into()),
        Part::Paragraph(plain(verdict)),
        Part::Table(figures("figure", &stack.figures)),
    ];
    if let Some(SampledLines { count, seed, fraction_out, fraction_out_lower, fraction_out_upper, .. }) =
        sampled
    {
        let [out, lower, upper] =
            [fraction_out, fraction_out_lower, fraction_out_upper].map(|x| shown::number(*x));
        parts.push(Part::Paragraph(plain(format!(
            "Of {count} sampled assemblies (seed {seed}) {out} are outside the limits; with 95 percent confidence {lower} to {upper} are."
        ))));
    }
    let row = |one: &'s ContributionLine| -> [Shown<'s>; 5] {
        let ContributionLine { name, limits, rss, variance, worst_case } = one;
        let [worst_case, rss, variance] =
            [worst_case, rss, variance].map(|percent| format!("{percent:.1}").into());
        [(&**name).into(), (&**limits).into(), worst_case, rss, variance]
    };
    let head = ["contributor", "limits", "% worst case", "% sum of squares", "% variance"];
    parts.push(Part::Table(Table::new(head, contributions.iter().map(row))));
    parts
}
