//! Pages that people print: their content once, and two forms of it, Markdown and self-contained HTML.
//!
//! Text stands here as it was written. Each form escapes it for itself, so that no name can be taken for markup.
mod html;
mod markdown;
pub(crate) mod markup;
mod part;
pub(crate) mod shown;

pub(crate) use part::{Card, Page, Part, Shown, Span, Table, Words, plain, with_names};
