//! Whether the names in rates are those of kinds of operation and of machines.
use super::operation::Operation;
use super::rates::Rates;
use crate::document::decode::Decode;
use crate::document::fault::{FaultKind, Faults, Place};
use crate::document::shape::{Shape, one_of};
use crate::error::excerpt;
use crate::nearest::nearest;

/// The kinds of operation.
fn kinds() -> impl Iterator<Item = &'static str> + Clone {
    let variants: &[_] = match Operation::SHAPE {
        Shape::Tagged(_, variants, _) => variants,
        _ => &[],
    };
    variants.iter().map(|variant| variant.0)
}

impl Rates {
    /// Notes names that are not known, and machines that are named twice.
    pub(super) fn check_names(&self, at: Place<'_>, faults: &mut Faults) {
        let machines = || self.machines.iter().map(|machine| machine.name.as_str());
        let list = at.field("machines");
        for (index, machine) in self.machines.iter().enumerate() {
            if machines().take(index).any(|name| name == machine.name) {
                faults.add(FaultKind::GivenTwice, list.index(index).field("name"), || {
                    format!("another machine is called `{}`", excerpt(&machine.name))
                });
            }
        }
        let list = at.field("operations");
        for (index, work) in self.operations.iter().enumerate() {
            let at = list.index(index);
            check_kinds(&work.kinds, at.field("kinds"), faults);
            known(&work.machine, machines(), "machine", at.field("machine"), faults);
        }
        let list = at.field("learning");
        for (index, learning) in self.learning.iter().enumerate() {
            check_kinds(&learning.kinds, list.index(index).field("kinds"), faults);
        }
        let list = at.field("tools");
        for (index, tool) in self.tools.iter().enumerate() {
            if let Some(kind) = &tool.kind {
                known(kind, kinds(), "kind of operation", list.index(index).field("kind"), faults);
            }
        }
        let list = at.field("outside");
        for (index, outside) in self.outside.iter().enumerate() {
            check_kinds(&outside.kinds, list.index(index).field("kinds"), faults);
        }
    }
}

fn check_kinds(named: &[String], list: Place<'_>, faults: &mut Faults) {
    for (index, kind) in named.iter().enumerate() {
        known(kind, kinds(), "kind of operation", list.index(index), faults);
    }
}

/// Notes a name that is not among those known.
pub(super) fn known<'n>(
    name: &str,
    known: impl Iterator<Item = &'n str> + Clone,
    what: &str,
    at: Place<'_>,
    faults: &mut Faults,
) {
    if known.clone().any(|one| one == name) {
        return;
    }
    faults.add(FaultKind::NotThere, at, || {
        let name = excerpt(name);
        match (nearest(&name, known.clone()), known.clone().next()) {
            (Some(meant), _) => format!("no {what} is called `{name}`: did you mean `{meant}`?"),
            (None, Some(_)) => format!("no {what} is called `{name}`; expected {}", one_of(known)),
            (None, None) => {
                format!("no {what} is called `{name}`: there are none yet. Fix: add one to `machines`")
            }
        }
    });
}
