//! The process sheet as Markdown that reads well in a terminal too.
use super::markup::{entry, escaped, table};
use super::propose::{write_assumed, write_assumed_of};
use super::sheet::*;
use crate::document::node::{index, steps};
use crate::finding::{Finding, Severity};
use std::fmt::Write;

/// Five significant digits, without zeros at the end; only for the eye.
fn number(value: f64) -> String {
    let size = value.abs();
    if size != 0.0 && !(1e-4..1e7).contains(&size) {
        return format!("{value:.4e}");
    }
    let places = match size {
        0.0..1.0 => 5,
        1.0..10.0 => 4,
        10.0..100.0 => 3,
        100.0..1e3 => 2,
        1e3..1e4 => 1,
        _ => 0,
    };
    let text = format!("{value:.places$}");
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').into(),
        false => text,
    }
}

fn figure_row(figure: &Figure) -> [String; 4] {
    let judged = figure.judged.map_or(String::new(), |Judged { lower, upper, within }| {
        let verdict = if within { "within" } else { "OUTSIDE" };
        format!("{verdict} {} to {}", number(lower), number(upper))
    });
    [figure.name.into(), number(figure.value), figure.unit.into(), judged]
}

fn count_of(count: f64, what: &str) -> String {
    format!("{count} {what}{}", if count == 1.0 { "" } else { "s" })
}

/// Limits with what they are stated by.
fn stated(limits: &str, designation: &Option<String>) -> String {
    designation.as_ref().map_or(limits.into(), |designation| format!("{limits} ({})", escaped(designation)))
}

fn list(numbers: impl Iterator<Item = String>) -> String {
    numbers.collect::<Vec<_>>().join(", ")
}

impl Sheet {
    /// The sheet as Markdown.
    pub fn to_markdown(&self) -> String {
        let mut text = String::new();
        let number_text = self.part_number.as_ref().map_or(String::new(), |n| format!(" ({})", escaped(n)));
        let _ = writeln!(text, "# Process sheet: {}{number_text}\n", escaped(&self.part));
        let _ = writeln!(
            text,
            "Quantity {}, {}, units {}.\n",
            self.quantity,
            escaped(&self.material),
            self.units.name()
        );
        self.write_findings(&mut text);
        write_assumed(&mut text, &self.assumptions);
        self.write_characteristics(&mut text);
        self.write_bar(&mut text);
        for (index, operation) in self.operations.iter().enumerate() {
            self.write_operation(&mut text, operation, index);
        }
        let _ = writeln!(text, "All operations: {} min a part.\n", number(self.minutes_per_part));
        if let Some(joint) = &self.joint {
            write_joint(&mut text, joint);
        }
        for stack in &self.stacks {
            write_stack(&mut text, stack);
        }
        self.write_gauges(&mut text);
        text.push_str("## Cautions\n\n");
        for caution in &self.cautions {
            entry(&mut text, caution);
        }
        let Stamp { tenths, document, sha256, tables } = &self.stamp;
        let _ = writeln!(text, "\n## Stamp\n\n- tenths {tenths}, document version {document}");
        for table in tables {
            let _ = writeln!(text, "- {table}");
        }
        let _ = writeln!(text, "- SHA-256 of the plan: {sha256}");
        text
    }

    fn write_findings(&self, text: &mut String) {
        text.push_str("## Findings\n\n");
        for finding in &self.findings {
            let weight = match finding.severity {
                Severity::Note => "Note",
                Severity::Warning => "Warning",
                Severity::Error => "ERROR",
            };
            let Finding { place, message, remedy, .. } = finding;
            let (named, message) = (self.named(place), escaped(message));
            entry(text, &format!("**{weight}.** {named} (`{place}`): {message}. Fix: {remedy}."));
        }
        if self.findings.is_empty() {
            text.push_str("None.\n");
        }
        text.push('\n');
    }

    /// What a pointer of the document leads to, as the sheet numbers it: `Operation 4, Knurl`.
    fn named(&self, pointer: &str) -> String {
        let steps: Vec<String> = steps(pointer).collect();
        let at = steps.get(1).and_then(|step| index(step)).unwrap_or(usize::MAX);
        let named = match steps.first().map(String::as_str) {
            Some("operations") => self.operations.get(at).map(|one| {
                let (first, rest) = one.kind.split_at_checked(1).unwrap_or_default();
                format!("Operation {}, {}{}", one.number, first.to_uppercase(), rest.replace('_', " "))
            }),
            Some("characteristics") => {
                self.characteristics.get(at).map(|one| format!("No. {}, {}", one.number, escaped(&one.name)))
            }
            Some("stacks") => self.stacks.get(at).map(|one| format!("Stack, {}", escaped(&one.name))),
            Some("joint") => Some("Joint".into()),
            Some("bar") => Some("Bar".into()),
            Some("material") => Some("Material".into()),
            _ => None,
        };
        named.unwrap_or_else(|| "Plan".into())
    }

    fn write_characteristics(&self, text: &mut String) {
        text.push_str("## Drawing, and first-article list\n\n");
        let row = |c: &CharacteristicLine| {
            let met = match (c.bought, c.made_by.is_empty()) {
                (true, _) => "as bought".into(),
                (_, false) => format!("operation {}", list(c.made_by.iter().map(u32::to_string))),
                (false, true) => "NOT MET".into(),
            };
            let or_none = |text: &Option<String>| text.clone().unwrap_or_default();
            [
                c.number.to_string(),
                escaped(&c.name),
                stated(&c.limits, &c.designation),
                c.requirement.into(),
                or_none(&c.roughness),
                or_none(&c.form_deviation),
                or_none(&c.before_plating),
                met,
                escaped(&c.inspection),
                c.capability.map_or(String::new(), |cpk| cpk.to_string()),
            ]
        };
        let head = [
            "No.",
            "characteristic",
            "limits",
            "size and form",
            "Ra, at most",
            "form deviation, at most",
            "before plating",
            "met by",
            "inspection",
            "Cpk, at least",
        ];
        table(text, head, &self.characteristics.iter().map(row).collect::<Vec<_>>());
    }

    fn write_bar(&self, text: &mut String) {
        let BarLines { section, designation, length, part_length, parts_per_bar, bars } = &self.bar;
        let _ = writeln!(text, "## Bar\n\nThe bar is {}, {length} long.", stated(section, designation));
        if let (Some(part), Some(count)) = (part_length, parts_per_bar) {
            let _ =
                writeln!(text, "A part takes {part} and the kerf: {} from a bar.", count_of(*count, "part"));
        }
        if let Some(bars) = bars {
            let _ =
                writeln!(text, "{} for {}.", count_of(*bars, "bar"), count_of(self.quantity.into(), "part"));
        }
        text.push('\n');
    }

    fn write_operation(&self, text: &mut String, operation: &OperationLines, index: usize) {
        let _ = writeln!(text, "## Operation {}: {}\n", operation.number, escaped(&operation.name));
        for number in &operation.characteristics {
            self.write_asked(text, *number);
        }
        for caution in &operation.cautions {
            entry(text, &format!("**Caution.** {}", escaped(caution)));
        }
        if !operation.characteristics.is_empty() || !operation.cautions.is_empty() {
            text.push('\n');
        }
        write_assumed_of(text, &self.assumptions, index);
        write_figures(text, "to be set", &operation.settings);
        write_figures(text, "computed", &operation.figures);
        let _ = writeln!(text, "{} min a part.\n", number(operation.minutes_per_part));
    }

    /// What the drawing asks for, beside the operation that makes or checks it.
    fn write_asked(&self, text: &mut String, number: u32) {
        let Some(asked) = self.characteristics.iter().find(|one| one.number == number) else { return };
        let more = [
            ("Ra", &asked.roughness),
            ("form deviation", &asked.form_deviation),
            ("before plating", &asked.before_plating),
        ];
        let more = more.into_iter().filter_map(|(name, value)| Some(format!(", {name} {}", value.as_ref()?)));
        let limits = stated(&asked.limits, &asked.designation);
        let name = escaped(&asked.name);
        entry(text, &format!("No. {number}, {name}: {limits}{}", more.collect::<String>()));
    }

    fn write_gauges(&self, text: &mut String) {
        if self.gauges.is_empty() {
            return;
        }
        text.push_str("## Gauges\n\n");
        let rows: Vec<_> = self
            .gauges
            .iter()
            .map(|g| {
                let what = g.characteristic.map_or("hub bore".into(), |n| format!("No. {n}"));
                let class = format!("{} ({})", g.class, g.basis);
                [what, g.form.name().into(), class, g.go.clone(), g.no_go.clone()]
            })
            .collect();
        table(text, ["for", "form", "class", "GO", "NO-GO"], &rows);
        for gauge in &self.gauges {
            let what = gauge.characteristic.map_or("Hub bore".into(), |n| format!("No. {n}"));
            entry(text, &format!("{what}, GO: {}", gauge.go_proves));
            entry(text, &format!("{what}, NO-GO: {}", gauge.no_go_proves));
        }
        text.push('\n');
    }
}

fn write_stack(text: &mut String, stack: &StackLines) {
    let StackLines { name, wanted, worst_case, figures, sampled, contributions, .. } = stack;
    let closes = |closes: bool| if closes { "closes" } else { "DOES NOT CLOSE" };
    let _ = writeln!(text, "## Stack: {}\n\nWanted {wanted}; worst case {worst_case}.", escaped(name));
    let _ = writeln!(
        text,
        "In the worst case it {}, statistically it {}.\n",
        closes(stack.closes_in_worst_case),
        closes(stack.closes_statistically)
    );
    write_figures(text, "figure", figures);
    if let Some(SampledLines { count, seed, fraction_out, fraction_out_lower, fraction_out_upper, .. }) =
        sampled
    {
        let [out, lower, upper] = [fraction_out, fraction_out_lower, fraction_out_upper].map(|x| number(*x));
        let _ = writeln!(
            text,
            "Of {count} sampled assemblies (seed {seed}) {out} are outside the limits; with 95 percent confidence {lower} to {upper} are.\n"
        );
    }
    let rows: Vec<_> = contributions
        .iter()
        .map(|one| {
            let percents = [one.worst_case, one.rss, one.variance].map(|percent| format!("{percent:.1}"));
            let [worst_case, rss, variance] = percents;
            [escaped(&one.name), one.limits.clone(), worst_case, rss, variance]
        })
        .collect();
    table(text, ["contributor", "limits", "% worst case", "% sum of squares", "% variance"], &rows);
}

fn write_joint(text: &mut String, joint: &JointLines) {
    let is_plain = joint.kind == "plain";
    let (title, with_lower, with_higher) = match is_plain {
        true => ("Pressed joint", ", with the lower friction", ", with the higher friction"),
        false => ("Knurled joint: an ESTIMATE", "", ""),
    };
    let what = if is_plain { "Interference" } else { "The crests overlap the bore by" };
    let JointLines { least_interference: least, greatest_interference: greatest, .. } = joint;
    let bore = stated(&joint.bore, &joint.bore_designation);
    let _ = writeln!(text, "## {title}\n\nThe bore is {bore}. {what} {least} to {greatest}.\n");
    for (title, friction, figures) in
        [("At its loosest", with_lower, &joint.loosest), ("At its tightest", with_higher, &joint.tightest)]
    {
        if !figures.is_empty() {
            let _ = writeln!(text, "{title}{friction}:\n");
            write_figures(text, "figure", figures);
        }
    }
}

/// Figures as a table, with what was recommended where some are judged; nothing where there are none.
fn write_figures(text: &mut String, title: &str, figures: &[Figure]) {
    if !figures.is_empty() {
        let rows: Vec<_> = figures.iter().map(figure_row).collect();
        table(text, [title, "value", "unit", "recommended"], &rows);
    }
}
