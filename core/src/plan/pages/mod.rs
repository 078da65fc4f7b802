//! The sheet as pages to work from: for the planner, the machine, the store, the saw, the inspector.
mod cards;
mod first_article;
mod lists;
mod price_list;
mod process;
mod quote;
mod words;

use super::sheet::Sheet;
use crate::object::UnknownName;
use crate::page::Page;
use tenths_macros::Choice;

/// What is printed of a sheet.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Choice)]
pub enum SheetKind {
    /// The process sheet: findings, drawing, bar, operations, joint, stacks and gauges.
    #[default]
    Process,
    /// A card for each operation: what to set, with which tool, how to hold, what to gauge and what to beware of.
    Cards,
    /// What is set up: machine, work holding and tool of each operation.
    Setups,
    /// The tools, with what the quantity takes of each.
    Tools,
    /// What is cut from which bar.
    CutList,
    /// The gauges and instruments.
    Gauges,
    /// The form of the first article, to fill in.
    FirstArticle,
    /// The quote.
    Quote,
}

/// Why a sheet cannot be printed.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SheetError {
    /// A text that names no kind.
    #[error(transparent)]
    Kind(#[from] UnknownName),
    /// A text that names no format.
    #[error("`{0}` is not a format of a sheet; expected `markdown`, `html` or `json`")]
    Format(String),
    /// The plan has no rates to quote by.
    #[error(
        "there is no quote: the plan has no `rates`. Fix: give the rates of machines, material and tools in `rates` of the plan"
    )]
    NoRates,
    /// The rates of the plan do not cover it.
    #[error("{0}")]
    NotQuoted(String),
}

impl SheetKind {
    /// The kind of that name: `process`, `cards`, `setups`, `tools`, `cut_list`, `gauges`, `first_article` or `quote`.
    ///
    /// # Errors
    /// [`SheetError::Kind`].
    pub fn parse(text: &str) -> Result<SheetKind, SheetError> {
        Ok(UnknownName::or_named("a kind of sheet", text)?)
    }
}

impl Sheet {
    /// The sheet as Markdown that reads well in a terminal too.
    ///
    /// # Errors
    /// For a quote, [`SheetError::NoRates`] where the plan has no rates, [`SheetError::NotQuoted`] where they do not cover it.
    pub fn to_markdown(&self, kind: SheetKind) -> Result<String, SheetError> {
        Ok(self.page(kind)?.to_markdown())
    }

    /// The sheet as one HTML file that needs nothing else, and prints on A4 and Letter; no card is broken across pages that
    /// fits on one.
    ///
    /// # Errors
    /// As [`Sheet::to_markdown`].
    pub fn to_html(&self, kind: SheetKind) -> Result<String, SheetError> {
        Ok(self.page(kind)?.to_html())
    }

    /// The sheet in a format by its name: `markdown`, `html` or `json`, which is the whole sheet as data.
    ///
    /// # Errors
    /// [`SheetError`].
    pub fn to_format(&self, kind: SheetKind, format: &str) -> Result<String, SheetError> {
        match format {
            "markdown" => self.to_markdown(kind),
            "html" => self.to_html(kind),
            "json" => Ok(self.to_json()),
            other => Err(SheetError::Format(crate::error::excerpt(other))),
        }
    }

    fn page(&self, kind: SheetKind) -> Result<Page<'_>, SheetError> {
        let (kind, parts) = match kind {
            SheetKind::Process => ("Process sheet", self.process()),
            SheetKind::Cards => ("Operation cards", self.cards()),
            SheetKind::Setups => ("Set-up list", self.setups()),
            SheetKind::Tools => ("Tool list", self.tool_list()),
            SheetKind::CutList => ("Cut list", self.cut_list()),
            SheetKind::Gauges => ("Gauge list", self.gauge_list()),
            SheetKind::FirstArticle => ("First article", self.first_article()),
            SheetKind::Quote => ("Quote", self.quoted()?),
        };
        let number = self.part_number.as_ref().map_or(String::new(), |number| format!(" ({number})"));
        Ok(Page { kind, title: format!("{}{number}", self.part), parts })
    }
}
