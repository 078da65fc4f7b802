//! The process sheet: everything in one page.
use super::words::{cautions, figures, limits, list, settings};
use crate::page::{Card, Part, Span, Table, plain, shown};
use crate::plan::sheet::*;
use std::collections::BTreeMap;

impl Sheet {
    pub(super) fn process(&self) -> Vec<Part> {
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

    fn findings_part(&self) -> [Part; 2] {
        let found = match self.findings.is_empty() {
            true => Part::Paragraph(plain("No findings.")),
            false => Part::List(self.findings.iter().map(|one| self.finding(one)).collect()),
        };
        [Part::Heading("Findings".into()), found]
    }

    /// What was assumed, once for all places that take the same for the same reason.
    fn assumed_part(&self) -> Vec<Part> {
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
        let row = |group: &Vec<&AssumedLine>| {
            let joined = |told: &dyn Fn(&AssumedLine) -> String| {
                group.iter().map(|one| told(one)).collect::<Vec<_>>().join("; ")
            };
            let [of, field] = [joined(&|one| self.named(&one.place)), joined(&|one| one.place.clone())];
            let first = group
                .first()
                .map_or([String::new(), String::new()], |one| [one.value.clone(), one.reason.clone()]);
            let [value, reason] = first;
            [of, field, value, reason]
        };
        let table = Table::new(["of", "field", "assumed", "why"], groups.iter().map(row).collect());
        vec![Part::Heading("Assumed".into()), Part::Table(table)]
    }

    fn drawing_part(&self) -> [Part; 2] {
        let row = |one: &CharacteristicLine| {
            let met = match (one.bought, one.made_by.is_empty()) {
                (true, _) => "as bought".into(),
                (_, false) => list(&one.made_by),
                (false, true) => "NOT MADE".into(),
            };
            let [number, name, limits, requirement, roughness, form, plating] = one.drawn();
            let capability = one.capability.map_or(String::new(), shown::stated);
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
        let table = Table::new(head, self.characteristics.iter().map(row).collect());
        [Part::Heading("Drawing, and first-article list".into()), Part::Table(table)]
    }

    fn bar_part(&self) -> Vec<Part> {
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

    fn operation_part(&self, operation: &OperationLines) -> Part {
        let mut parts = vec![];
        parts.extend(operation.reason.iter().map(|reason| Part::Paragraph(plain(format!("Why: {reason}.")))));
        parts.extend(self.assumed_of(operation));
        parts.extend([
            Part::Table(self.asked(&operation.characteristics)),
            settings(operation),
            cautions(&operation.cautions),
        ]);
        Part::Card(Card {
            number: operation.number.to_string(),
            title: operation.name.clone(),
            note: operation.note(),
            parts,
        })
    }

    /// The gauges of the standard, and what each member proves.
    pub(super) fn gauge_parts(&self) -> Vec<Part> {
        let of = |gauge: &GaugeLine| match (gauge.characteristic, &gauge.joint) {
            (Some(number), _) => format!("No. {number}"),
            (None, Some(joint)) => format!("hub bore, {joint}"),
            (None, None) => "hub bore".into(),
        };
        let row = |gauge: &GaugeLine| {
            let class = format!("{} ({})", gauge.class, gauge.basis);
            [of(gauge), gauge.form.name().into(), class, gauge.go.clone(), gauge.no_go.clone()]
        };
        let table =
            Table::new(["for", "form", "class", "GO", "NO-GO"], self.gauges.iter().map(row).collect());
        let proofs = self.gauges.iter().flat_map(|gauge| {
            let [go, no_go] = [("GO", &gauge.go_proves), ("NO-GO", &gauge.no_go_proves)];
            [go, no_go].map(|(member, proves)| {
                vec![Span::Strong(format!("{}, {member}.", of(gauge))), Span::Plain(format!(" {proves}"))]
            })
        });
        vec![Part::Table(table), Part::List(proofs.collect())]
    }

    fn stamp_part(&self) -> [Part; 2] {
        let Stamp { tenths, document, sha256, tables } = &self.stamp;
        let made = format!("tenths {tenths}, document version {document}");
        let hash = format!("SHA-256 of the plan: {sha256}");
        let lines = [made].into_iter().chain(tables.iter().cloned()).chain([hash]);
        [Part::Heading("Stamp".into()), Part::List(lines.map(plain).collect())]
    }
}

/// The field at the end of a pointer, without the place in its list: `tool/name` of `/operations/3/tool/name`.
fn field_of(place: &str) -> &str {
    place.splitn(4, '/').nth(3).unwrap_or(place)
}

impl OperationLines {
    /// Where it is done and how long it takes, for the edge of a card.
    pub(super) fn note(&self) -> String {
        let setup = (self.setup > 0.0).then(|| format!("set-up {}", shown::time(self.setup)));
        let station = self.station.as_ref().map(|station| format!("station {station}"));
        let time = format!("{} a part", shown::time(self.minutes_per_part));
        let words = [self.machine.clone(), station, setup, Some(time)];
        words.into_iter().flatten().collect::<Vec<_>>().join("; ")
    }
}

fn joint_parts(joint: &JointLines) -> Vec<Part> {
    let is_plain = joint.kind == "plain";
    let (title, with_lower, with_higher) = match is_plain {
        true => ("Pressed joint", ", with the lower friction", ", with the higher friction"),
        false => ("Knurled joint: an ESTIMATE", "", ""),
    };
    let title = joint.name.as_ref().map_or(title.into(), |name| format!("{title}: {name}"));
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

fn stack_parts(stack: &StackLines) -> Vec<Part> {
    let StackLines { name, wanted, worst_case, sampled, contributions, .. } = stack;
    let closes = |closes: bool| if closes { "closes" } else { "DOES NOT CLOSE" };
    let verdict = format!(
        "Wanted {wanted}; worst case {worst_case}. In the worst case it {}, statistically it {}.",
        closes(stack.closes_in_worst_case),
        closes(stack.closes_statistically)
    );
    let mut parts = vec![
        Part::Heading(format!("Stack: {name}")),
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
    let row = |one: &ContributionLine| {
        let [worst_case, rss, variance] =
            [one.worst_case, one.rss, one.variance].map(|percent| format!("{percent:.1}"));
        [one.name.clone(), one.limits.clone(), worst_case, rss, variance]
    };
    let head = ["contributor", "limits", "% worst case", "% sum of squares", "% variance"];
    parts.push(Part::Table(Table::new(head, contributions.iter().map(row).collect())));
    parts
}
