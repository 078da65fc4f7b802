//! The process sheet: what a plan comes to, as data.
//!
//! The table of fields under `objects!` gives the structs, what reads a sheet back, its JSON Schema and its page.
use super::characteristic::GaugeKind;
pub use super::figures::{Figure, Figures, Judged, Text};
use super::propose::Assumption;
use crate::document::Version;
use crate::document::decode::{Context, Decode, decode_field, sort_fields};
use crate::document::fault::Place;
use crate::document::node::Node;
use crate::document::objects::objects;
use crate::document::shape::{Bound, DocumentField, Object, Shape};
use crate::finding::Finding;
use crate::quantity::Units;
use serde::Serialize;

objects! {
    /// The process sheet of a plan, in the units of its document. Sizes are exact decimals as text.
    #[derive(Serialize)]
    Sheet {
        /// The version of this form of document.
        tenths_sheet: Version,
        /// What made the sheet, and from what.
        stamp: Stamp,
        /// The units of every figure.
        units: Units,
        /// Name of the part.
        part: String,
        /// Number of the part.
        part_number: Option<String>,
        /// How many to make.
        quantity: u32,
        /// The material.
        material: String,
        /// What the drawing asks for, and how each is met.
        characteristics: Vec<CharacteristicLine>,
        /// The bar stock.
        bar: BarLines,
        /// The operations, in the order of the work.
        operations: Vec<OperationLines>,
        /// Minutes of all operations for a part.
        minutes_per_part: f64,
        /// The joint, where the plan has one as `joint`.
        joint: Option<JointLines>,
        /// The joints, where the plan lists them as `joints`.
        joints: Vec<JointLines> = Vec::new(),
        /// The stacks, in the order of the document.
        stacks: Vec<StackLines>,
        /// The gauges.
        gauges: Vec<GaugeLine>,
        /// The tools, in the order of their first use.
        tools: Vec<ToolLine>,
        /// The quote for the quantity, where the plan has rates.
        quote: Option<QuotedLines>,
        /// What was assumed, because the plan leaves it out.
        assumed: Vec<AssumedLine>,
        /// What is wrong or worth a second look.
        findings: Vec<Finding>,
        /// What is always to be borne in mind; what one operation needs stands there.
        cautions: Vec<Text>,
    }

    /// What made a sheet, and from what.
    #[derive(Serialize)]
    Stamp {
        /// Version of the library.
        tenths: Text,
        /// Version of the form of document.
        document: u32,
        /// SHA-256 of the text of the document.
        sha256: String,
        /// The editions of the tables that were used, and where their figures were seen.
        tables: Vec<String>,
    }

    /// A quote: amounts are exact decimals as text, and the total is the sum of the lines.
    #[derive(Serialize)]
    QuotedLines {
        /// The currency.
        currency: String,
        /// The good pieces that are sold.
        quantity: u64,
        /// The pieces that are started, so that enough of them come out good.
        start_quantity: u64,
        /// The hours that the lot takes in the shop.
        hours: f64,
        /// The lines.
        lines: Vec<QuotedLine>,
        /// What the lot is sold for.
        total: String,
        /// What a piece is sold for.
        price_each: String,
        /// What is missing or worth a second look.
        findings: Vec<Finding>,
        /// What is to be borne in mind.
        cautions: Vec<Text>,
    }

    /// A line of a quote.
    #[derive(Serialize)]
    QuotedLine {
        /// What it is called.
        name: String,
        /// The operation that it is of; none where it is of the whole lot.
        operation: Option<u64>,
        /// The amount, rounded once.
        amount: String,
        /// What it is worked out from.
        basis: String,
    }

    /// What was assumed in the place of a field that the plan leaves out.
    #[derive(Serialize)]
    AssumedLine {
        /// The field: a JSON Pointer into the plan.
        place: String,
        /// What was taken, with its unit.
        value: String,
        /// Why, and where it comes from.
        reason: String,
    }

    /// A characteristic, how it is met and how it is proved: with its number, a line of the first-article list.
    #[derive(Serialize)]
    CharacteristicLine {
        /// Its number on the drawing.
        number: u32,
        /// What it is.
        name: String,
        /// Its limits, as exact decimals.
        limits: String,
        /// The lower limit, in the length unit of the sheet.
        lower: f64,
        /// The upper limit, in the length unit of the sheet.
        upper: f64,
        /// What they are stated by: a class or a fit with its member.
        designation: Option<String>,
        /// `envelope` or `independency`.
        requirement: Text,
        /// The greatest roughness Ra, with its unit.
        roughness: Option<String>,
        /// The greatest deviation of form.
        form_deviation: Option<String>,
        /// The limits before plating, where it is plated.
        before_plating: Option<String>,
        /// Whether the bar as bought meets it.
        bought: bool,
        /// The numbers of the operations that make it.
        made_by: Vec<u32>,
        /// How it is inspected.
        inspection: String,
        /// The form of the gauge that it is proved with.
        gauge: Option<GaugeKind>,
        /// The least Cpk that the process must be shown to have.
        capability: Option<f64>,
    }

    /// The bar stock.
    #[derive(Serialize)]
    BarLines {
        /// Its section and limits.
        section: String,
        /// What the limits are stated by: a class or a fit with its member.
        designation: Option<String>,
        /// Its length.
        length: String,
        /// What a part takes of it, allowance included and kerf not.
        part_length: Option<String>,
        /// Parts from a bar.
        parts_per_bar: Option<u64>,
        /// Bars for the quantity.
        bars: Option<u64>,
        /// The width of the cut between two parts.
        kerf: Option<String>,
        /// What is cut off the end of a new bar.
        end_trim: String,
        /// What the machine cannot use of each bar.
        remnant: String,
    }

    /// One operation.
    #[derive(Serialize)]
    OperationLines {
        /// Its number as the shop writes it.
        number: u32,
        /// Its kind, as the document names it.
        kind: Text,
        /// What it does.
        name: String,
        /// The machine that it is done on.
        machine: Option<String>,
        /// The station of the machine or of the line.
        station: Option<String>,
        /// Why it is done so, or at that place.
        reason: Option<String>,
        /// Minutes to set it up, once for a lot.
        setup: f64,
        /// The share of the pieces that is scrapped there.
        scrap: f64,
        /// The tool or tools.
        tool: Option<String>,
        /// How the work is held.
        holding: Option<String>,
        /// The coolant, where the plan states it.
        coolant: Option<String>,
        /// The characteristics that it makes or checks.
        characteristics: Vec<u32>,
        /// What is to be set at the machine, the sizes before and after, and what was computed, each under its key.
        figures: Figures,
        /// Minutes for a part.
        minutes_per_part: f64,
        /// How it can hurt or mislead, and what is usual against it.
        cautions: Vec<Text>,
    }

    /// A joint at its loosest and at its tightest.
    #[derive(Serialize)]
    JointLines {
        /// What it is called.
        name: Option<String>,
        /// `plain`, or `knurled`, whose figures are an estimate.
        kind: Text,
        /// The limits of the bore.
        bore: String,
        /// What they are stated by: a class or a fit with its member.
        bore_designation: Option<String>,
        /// The least interference, of a knurled shaft that of its crests; negative for clearance.
        least_interference: String,
        /// The greatest interference.
        greatest_interference: String,
        /// What it holds at the least interference, with the lower friction; empty where it may be loose.
        loosest: Figures,
        /// What it takes and bears at the greatest interference, with the higher friction; empty where it is always
        /// loose.
        tightest: Figures,
    }

    /// A closing dimension, by the limits of its contributors and by their distributions.
    #[derive(Serialize)]
    StackLines {
        /// What it is.
        name: String,
        /// The limits that it has to keep.
        wanted: String,
        /// Its limits for any parts within theirs.
        worst_case: String,
        /// Whether those lie within the wanted ones.
        closes_in_worst_case: bool,
        /// Whether its mean lies within the wanted limits, and no more lies out than may.
        closes_statistically: bool,
        /// The root of the sum of squares about the middle, and the exact mean and standard deviation with the fraction out
        /// of a normal law that has them.
        figures: Figures,
        /// The sample, where the document asks for one.
        sampled: Option<SampledLines>,
        /// What each contributor has of the whole.
        contributions: Vec<ContributionLine>,
    }

    /// What a sample of a stack tells.
    #[derive(Serialize)]
    SampledLines {
        /// How many assemblies were drawn.
        count: u32,
        /// The number that they were drawn by.
        seed: u32,
        /// Their mean.
        mean: f64,
        /// Their standard deviation; none for a single one.
        sigma: Option<f64>,
        /// The share of them outside the wanted limits.
        fraction_out: f64,
        /// Lower end of an interval that holds the share of all assemblies with 95 percent confidence.
        fraction_out_lower: f64,
        /// Upper end of that interval.
        fraction_out_upper: f64,
    }

    /// What a contributor has of a stack, in percent.
    #[derive(Serialize)]
    ContributionLine {
        /// The contributor.
        name: String,
        /// Its limits.
        limits: String,
        /// Of the sum of the squared tolerances.
        rss: f64,
        /// Of the variance.
        variance: f64,
        /// Of the worst case.
        worst_case: f64,
    }

    /// A tool, and what the quantity takes of it.
    #[derive(Serialize)]
    ToolLine {
        /// What it is.
        name: String,
        /// The numbers of the operations that use it.
        operations: Vec<u32>,
        /// Minutes in the cut for a part; none where an operation does not tell.
        minutes_per_part: Option<f64>,
        /// Edges that a part takes, each for one life; none where no life is known.
        edges_per_part: Option<f64>,
        /// Edges for the quantity, rounded up.
        edges: Option<u64>,
        /// New tools for these edges, rounded up; none where the rates do not say how many edges one has.
        tools: Option<u64>,
        /// How long an edge lasts in the cut, and by what.
        life: Option<String>,
    }

    /// A pair of gauges for a characteristic, or for the bore of a hub.
    #[derive(Serialize)]
    GaugeLine {
        /// The characteristic; none for the bore of a hub.
        characteristic: Option<u32>,
        /// The name of the joint whose bore it is for, where it has one.
        joint: Option<String>,
        /// The form of gauge.
        form: GaugeKind,
        /// The gagemaker class.
        class: Text,
        /// The limits of the GO member, and what it proves.
        go: String,
        /// What GO proves.
        go_proves: Text,
        /// The limits of the NO-GO member.
        no_go: String,
        /// What NO-GO proves.
        no_go_proves: Text,
        /// Whether the standard's figures are for this form, or applied by common practice.
        basis: Text,
    }
}

impl From<Assumption> for AssumedLine {
    fn from(Assumption { place, value, reason }: Assumption) -> AssumedLine {
        AssumedLine { place, value, reason }
    }
}
