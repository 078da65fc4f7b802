//! The form of the first article, to fill in at the bench.
use crate::page::{Part, Shown, Table, plain};
use crate::plan::sheet::*;

impl Sheet {
    pub(super) fn first_article<'s>(&'s self) -> Vec<Part<'s>> {
        let blank = || Shown::Borrowed(" ");
        let row = |number: Shown<'s>, name: Shown<'s>, asked: Shown<'s>, with: Shown<'s>| {
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
                let (name, asked) = (format!("{name}, {what}"), format!("at most {asked}"));
                row(number.clone(), name.into(), asked.into(), "".into())
            });
            [size].into_iter().chain(more)
        });
        let head = ["No.", "characteristic", "drawing", "inspect with", "measured", "measured with", "good?"];
        vec![
            self.lead(),
            Part::Table(Table::new(head, rows)),
            Part::Signatures(&["Inspected by", "Approved by"]),
            Part::List(vec![
                plain("This proves the pieces that were measured, not those that follow."),
                plain(format!("SHA-256 of the plan: {}", self.stamp.sha256)),
            ]),
        ]
    }
}
