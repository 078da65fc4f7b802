//! What the makers of files give: text, or why there is none.

pub(crate) type Text = Result<String, Box<dyn std::error::Error>>;
pub(crate) type Outcome = Result<(), Box<dyn std::error::Error>>;
