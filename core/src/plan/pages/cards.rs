//! A card for each operation, to hang at the machine.
use super::words::{cautions, settings};
use crate::page::{Card, Part, Span};
use crate::plan::sheet::*;

impl Sheet {
    pub(super) fn cards(&self) -> Vec<Part<'_>> {
        let mut parts = vec![self.lead()];
        parts.extend(self.operations.iter().map(|operation| self.card(operation)));
        parts.extend(self.foot());
        parts
    }

    fn card<'s>(&'s self, operation: &'s OperationLines) -> Part<'s> {
        let mut parts = vec![];
        let OperationLines { tool, holding, coolant, reason, .. } = operation;
        let facts = [("Tool", tool), ("Work holding", holding), ("Coolant", coolant), ("Why", reason)];
        let facts = facts.into_iter().filter_map(|(name, fact)| Some((name, fact.as_ref()?)));
        let words: Vec<Span<'_>> = facts
            .flat_map(|(name, fact)| {
                [Span::Strong(format!("{name}:").into()), Span::Plain(format!(" {fact}. ").into())]
            })
            .collect();
        if !words.is_empty() {
            parts.push(Part::Paragraph(words));
        }
        parts.extend(self.assumed_of(operation));
        parts.push(Part::Table(self.asked(&operation.characteristics)));
        parts.push(settings(operation));
        let found = self.findings.iter().filter(|finding| self.is_of(finding, operation));
        parts.push(Part::List(found.map(|finding| self.finding(finding)).collect()));
        parts.push(cautions(&operation.cautions));
        Part::Card(Card {
            number: operation.number.to_string(),
            title: &operation.name,
            note: operation.note(),
            parts,
        })
    }

    /// Whether a finding speaks of an operation.
    fn is_of(&self, finding: &crate::Finding, operation: &OperationLines) -> bool {
        let top = self.place_of(operation);
        finding.place.strip_prefix(&*top).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
    }
}
