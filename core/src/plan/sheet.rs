//! The process sheet: what a plan comes to.
use super::characteristic::GaugeKind;
use super::propose::Assumption;
use crate::finding::Finding;
use crate::quantity::Units;
use serde::{Serialize, Serializer};
use std::borrow::Cow;

/// The process sheet of a plan, in the units of its document. Sizes are exact decimals as text.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Sheet {
    /// What made the sheet, and from what.
    pub stamp: Stamp,
    /// The units of every figure.
    #[serde(serialize_with = "name_of")]
    pub units: Units,
    /// Name of the part.
    pub part: String,
    /// Number of the part.
    pub part_number: Option<String>,
    /// How many to make.
    pub quantity: u32,
    /// The material.
    pub material: String,
    /// What the drawing asks for, and how each is met.
    pub characteristics: Vec<CharacteristicLine>,
    /// The bar stock.
    pub bar: BarLines,
    /// The operations, in the order of the work.
    pub operations: Vec<OperationLines>,
    /// Minutes of all operations for a part.
    pub minutes_per_part: f64,
    /// The pressed joint.
    pub joint: Option<JointLines>,
    /// The stacks, in the order of the document.
    pub stacks: Vec<StackLines>,
    /// The gauges.
    pub gauges: Vec<GaugeLine>,
    /// What the plan leaves out and was assumed.
    pub assumptions: Vec<Assumption>,
    /// What is wrong or worth a second look.
    pub findings: Vec<Finding>,
    /// What is always to be borne in mind; what one operation needs stands there.
    pub cautions: Vec<&'static str>,
}

fn name_of<S: Serializer>(units: &Units, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(units.name())
}

/// What made a sheet, and from what.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct Stamp {
    /// Version of the library.
    pub tenths: &'static str,
    /// Version of the form of document.
    pub document: u32,
    /// SHA-256 of the text of the document.
    pub sha256: String,
    /// The editions of the tables that were used, and where their figures were seen.
    pub tables: Vec<String>,
}

/// A computed figure.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Figure {
    /// What it is.
    pub name: &'static str,
    /// Its value.
    pub value: f64,
    /// Its unit.
    pub unit: &'static str,
    /// The range that it was judged against, and whether it lies within.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub judged: Option<Judged>,
}

/// A range that a maker recommends, and whether a figure lies within.
#[derive(Clone, Copy, PartialEq, Debug, Serialize)]
pub struct Judged {
    /// The lower end.
    pub lower: f64,
    /// The upper end.
    pub upper: f64,
    /// Whether the figure lies within, ends included.
    pub within: bool,
}

/// A characteristic, how it is met and how it is proved: with its number, a line of the first-article list.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct CharacteristicLine {
    /// Its number on the drawing.
    pub number: u32,
    /// What it is.
    pub name: String,
    /// Its limits.
    pub limits: String,
    /// What they are stated by: a class or a fit with its member.
    pub designation: Option<String>,
    /// `envelope` or `independency`.
    pub requirement: &'static str,
    /// The greatest roughness Ra, with its unit.
    pub roughness: Option<String>,
    /// The greatest deviation of form.
    pub form_deviation: Option<String>,
    /// The limits before plating, where it is plated.
    pub before_plating: Option<String>,
    /// Whether the bar as bought meets it.
    pub bought: bool,
    /// The numbers of the operations that make it.
    pub made_by: Vec<u32>,
    /// How it is inspected.
    pub inspection: String,
    /// The least Cpk that the process must be shown to have.
    pub capability: Option<f64>,
}

/// The bar stock.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct BarLines {
    /// Its section and limits.
    pub section: String,
    /// What the limits are stated by: a class or a fit with its member.
    pub designation: Option<String>,
    /// Its length.
    pub length: String,
    /// What a part takes of it, allowance included and kerf not.
    pub part_length: Option<String>,
    /// Parts from a bar.
    pub parts_per_bar: Option<f64>,
    /// Bars for the quantity.
    pub bars: Option<f64>,
}

/// One operation.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct OperationLines {
    /// Its number as the shop writes it.
    pub number: u32,
    /// Its kind, as the document names it.
    pub kind: &'static str,
    /// What it does.
    pub name: String,
    /// The machine that it is done on.
    pub machine: Option<String>,
    /// The station of the machine or of the line.
    pub station: Option<String>,
    /// Why it is done so, or at that place.
    pub reason: Option<String>,
    /// Minutes to set it up, once for a lot.
    pub setup: f64,
    /// The share of the pieces that is scrapped there.
    pub scrap: f64,
    /// The characteristics that it makes or checks.
    pub characteristics: Vec<u32>,
    /// What is to be set at the machine, as the plan states it, and the sizes before and after.
    pub settings: Vec<Figure>,
    /// What was computed for it.
    pub figures: Vec<Figure>,
    /// Minutes for a part.
    pub minutes_per_part: f64,
    /// How it can hurt or mislead, and what is usual against it.
    pub cautions: Vec<Cow<'static, str>>,
}

/// A pressed joint at its loosest and at its tightest.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct JointLines {
    /// `plain`, or `knurled`, whose figures are an estimate.
    pub kind: &'static str,
    /// The limits of the bore.
    pub bore: String,
    /// What they are stated by: a class or a fit with its member.
    pub bore_designation: Option<String>,
    /// The least interference, of a knurled shaft that of its crests; negative for clearance.
    pub least_interference: String,
    /// The greatest interference.
    pub greatest_interference: String,
    /// What it holds at the least interference, with the lower friction; empty where it may be loose.
    pub loosest: Vec<Figure>,
    /// What it takes and bears at the greatest interference, with the higher friction; empty where it is always
    /// loose.
    pub tightest: Vec<Figure>,
}

/// A closing dimension, by the limits of its contributors and by their distributions.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct StackLines {
    /// What it is.
    pub name: String,
    /// The limits that it has to keep.
    pub wanted: String,
    /// Its limits for any parts within theirs.
    pub worst_case: String,
    /// Whether those lie within the wanted ones.
    pub closes_in_worst_case: bool,
    /// Whether its mean lies within the wanted limits, and no more lies out than may.
    pub closes_statistically: bool,
    /// The root of the sum of squares about the middle, and the exact mean and standard deviation with the fraction out
    /// of a normal law that has them.
    pub figures: Vec<Figure>,
    /// The sample, where the document asks for one.
    pub sampled: Option<SampledLines>,
    /// What each contributor has of the whole.
    pub contributions: Vec<ContributionLine>,
}

/// What a sample of a stack tells.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct SampledLines {
    /// How many assemblies were drawn.
    pub count: u32,
    /// The number that they were drawn by.
    pub seed: u32,
    /// Their mean.
    pub mean: f64,
    /// Their standard deviation; none for a single one.
    pub sigma: Option<f64>,
    /// The share of them outside the wanted limits.
    pub fraction_out: f64,
    /// Lower end of an interval that holds the share of all assemblies with 95 percent confidence.
    pub fraction_out_lower: f64,
    /// Upper end of that interval.
    pub fraction_out_upper: f64,
}

/// What a contributor has of a stack, in percent.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ContributionLine {
    /// The contributor.
    pub name: String,
    /// Its limits.
    pub limits: String,
    /// Of the sum of the squared tolerances.
    pub rss: f64,
    /// Of the variance.
    pub variance: f64,
    /// Of the worst case.
    pub worst_case: f64,
}

/// A pair of gauges for a characteristic, or for the bore of the hub.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct GaugeLine {
    /// The characteristic; none for the bore of the hub.
    pub characteristic: Option<u32>,
    /// The form of gauge.
    pub form: GaugeKind,
    /// The gagemaker class.
    pub class: &'static str,
    /// The limits of the GO member, and what it proves.
    pub go: String,
    /// What GO proves.
    pub go_proves: &'static str,
    /// The limits of the NO-GO member.
    pub no_go: String,
    /// What NO-GO proves.
    pub no_go_proves: &'static str,
    /// Whether the standard's figures are for this form, or applied by common practice.
    pub basis: &'static str,
}

impl Sheet {
    /// The sheet as JSON.
    pub fn to_json(&self) -> String {
        // Only maps with keys that are no text, and failing writers, are refused; there are none.
        serde_json::to_string(self).unwrap_or_default()
    }
}
