//! The form of the first article, to fill in at the bench.
use crate::page::{Part, Table, plain};
use crate::plan::sheet::*;

impl Sheet {
    pub(super) fn first_article(&self) -> Vec<Part> {
        let blank = || " ".to_string();
        let row = |number: String, name: String, asked: String, with: String| {
            [number, name, asked, with, blank(), blank(), blank()]
        };
        let rows = self.characteristics.iter().flat_map(|one| {
            let [number, name, limits, _, roughness, form, _] = one.drawn();
            let size = row(number.clone(), name.clone(), limits, one.proof());
            // Roughness and form are read by themselves, where the characteristic stands.
            let more = [("roughness Ra", roughness), ("deviation of form", form)];
            let more = more.into_iter().filter(|(_, asked)| !asked.is_empty());
            let number = number.clone();
            let more = more.map(move |(what, asked)| {
                row(number.clone(), format!("{name}, {what}"), format!("at most {asked}"), String::new())
            });
            [size].into_iter().chain(more)
        });
        let head = ["No.", "characteristic", "drawing", "inspect with", "measured", "measured with", "good?"];
        vec![
            self.lead(),
            Part::Table(Table::new(head, rows.collect())),
            Part::Signatures(&["Inspected by", "Approved by"]),
            Part::List(vec![
                plain("This proves the pieces that were measured, not those that follow."),
                plain(format!("SHA-256 of the plan: {}", self.stamp.sha256)),
            ]),
        ]
    }
}
