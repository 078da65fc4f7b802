//! Finding a material by one of its names.
use super::error::MaterialError;
use super::record::Material;
use super::table::materials;
use crate::error::excerpt;
use crate::nearest::nearest;

/// Finds a material of the table by designation or alias, `AISI 304` or `1.4301`, or by that and its condition,
/// `SAE 4140, annealed`.
///
/// Letter case, spaces and commas do not matter, and SAE, AISI, ASTM or UNS before a grade may be left out.
///
/// # Errors
/// [`MaterialError`] where no grade has that name, or where it stands in several conditions and the name has
/// none. Both name a few candidates.
pub fn find(name: &str) -> Result<&'static Material, MaterialError> {
    // A designation as it stands in the table is no name of another grade, but may have several conditions.
    let mut own = materials().iter().filter(|material| material.designation == name);
    match (own.next(), own.next()) {
        (Some(material), None) => Ok(material),
        _ => find_among(materials().iter(), name),
    }
}

/// Finds a material among these.
pub(super) fn find_among<'m>(
    all: impl Iterator<Item = &'m Material> + Clone,
    name: &str,
) -> Result<&'m Material, MaterialError> {
    let wanted = grade(name);
    let last = folds(wanted).next_back();
    // The last letter alone tells most names from the wanted one.
    let may_end = |text: &str| match text.as_bytes() {
        [.., end] if end.is_ascii_alphanumeric() => last == Some(end.to_ascii_lowercase().into()),
        [.., _] => last.is_some(),
        [] => false,
    };
    let fits = |material: &&Material| {
        let any = may_end(&material.condition);
        names(material).filter(|own| any || may_end(own)).map(grade).any(|own| {
            folds(wanted).eq(folds(own)) || folds(wanted).eq(folds(own).chain(folds(&material.condition)))
        })
    };
    let mut found = all.clone().filter(fits);
    match (found.next(), found.next()) {
        (Some(material), None) => Ok(material),
        (None, _) => {
            let candidates = list(&alike(all, name));
            Err(MaterialError::Unknown { name: excerpt(name), candidates })
        }
        _ => {
            let candidates = list(&all.filter(fits).collect::<Vec<_>>());
            Err(MaterialError::Ambiguous { name: excerpt(name), candidates })
        }
    }
}

/// Its designation and its aliases.
pub(super) fn names(material: &Material) -> impl Iterator<Item = &str> {
    std::iter::once(&*material.designation).chain(material.aliases.iter().map(|alias| &**alias))
}

/// A name without the body of standards before it, which people leave out or take for one another.
fn grade(name: &str) -> &str {
    let name = name.trim_start();
    for body in ["SAE", "AISI", "ASTM", "UNS"] {
        let Some((before, after)) = name.split_at_checked(body.len()) else { continue };
        let after = after.trim_start();
        if before.eq_ignore_ascii_case(body) && !after.is_empty() {
            return after;
        }
    }
    name
}

/// The letters of a name without what does not matter in it.
pub(super) fn folds(text: &str) -> impl DoubleEndedIterator<Item = char> {
    text.chars().filter(|c| !c.is_whitespace() && *c != ',').map(|c| c.to_ascii_lowercase())
}

fn folded(text: &str) -> String {
    folds(grade(text)).collect()
}

/// Materials whose names, condition or kind contain `name`, or that share a number with it; failing these, the
/// one of the nearest spelling.
fn alike<'m>(all: impl Iterator<Item = &'m Material> + Clone, name: &str) -> Vec<&'m Material> {
    let wanted = folded(name);
    if wanted.is_empty() {
        return Vec::new();
    }
    let is_like = |material: &&Material| {
        names(material).any(|own| {
            let whole = folded(own) + &folded(&material.condition) + &folded(&material.name);
            whole.contains(&wanted) || numbers(own).any(|own| numbers(name).any(|asked| asked == own))
        })
    };
    let found: Vec<_> = all.clone().filter(is_like).collect();
    if !found.is_empty() {
        return found;
    }
    let spelt: Vec<(String, &Material)> =
        all.flat_map(|material| names(material).map(move |own| (folded(own), material))).collect();
    let near = nearest(&wanted, spelt.iter().map(|(own, _)| own.as_str()));
    spelt.iter().filter(|(own, _)| Some(own.as_str()) == near).map(|(_, material)| *material).collect()
}

/// The numbers in a designation that are long enough to tell a grade.
fn numbers(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_ascii_digit()).filter(|digits| digits.len() > 2)
}

/// The first few of a list, with a count of the rest.
fn list(materials: &[&Material]) -> String {
    const FEW: usize = 5;
    let named: Vec<String> = materials.iter().take(FEW).map(|material| format!("`{material}`")).collect();
    match materials.len().saturating_sub(FEW) {
        0 => named.join(" or "),
        more => format!("{} or one of {more} more", named.join(" or ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_material_is_found_by_its_names() {
        assert_eq!(materials().len(), 55);
        for material in materials() {
            assert_eq!(find(&material.to_string()), Ok(material));
            let designation = &*material.designation;
            assert_eq!(find(designation), find_among(materials().iter(), designation));
            for own in names(material) {
                assert_eq!(find(&format!("{own} {}", material.condition).to_uppercase()), Ok(material));
            }
        }
    }

    #[test]
    fn case_and_spacing_do_not_matter() {
        let designation = |name| find(name).map(|material| &*material.designation);
        assert_eq!(designation(" sae12l14 "), Ok("SAE 12L14"));
        assert_eq!(designation("uns s17400"), Ok("17-4 PH"));
        assert_eq!(find("sae 4140 ANNEALED").map(|material| &*material.condition), Ok("annealed"));
    }

    #[test]
    fn names_that_do_not_fit_one_material_are_refused_with_candidates() {
        let message = |name| find(name).map(|_| ()).unwrap_err().to_string();
        assert_eq!(
            message("SAE 4140"),
            "`SAE 4140` needs its condition: `SAE 4140, annealed` or `SAE 4140, prehard 28-32 HRC`"
        );
        assert_eq!(message("6061-T651"), "no material is called `6061-T651`: did you mean `6061-T6, T6`?");
        assert_eq!(
            message("brass"),
            "no material is called `brass`: did you mean `C36000, half hard` or `C26000, half hard`?"
        );
        assert!(message("tool steel").ends_with("or one of 2 more?"), "{}", message("tool steel"));
        assert_eq!(message("unobtainium"), "no material is called `unobtainium`");
        assert_eq!(message(" , "), "no material is called ` , `");
    }

    // UNS numbers and EN names from memory; that a grade has them is common knowledge of the trade.
    #[test]
    fn other_standards_lead_to_the_grade() {
        for (name, designation) in [
            ("1045", "SAE 1045"),
            ("AISI 1045", "SAE 1045"),
            ("C45", "SAE 1045"),
            ("g10450", "SAE 1045"),
            ("1.4301", "AISI 304"),
            ("100cr6", "SAE 52100"),
            ("SAE 660", "C93200"),
            ("660", "C93200"),
            ("UNS C36000", "C36000"),
            ("A36", "ASTM A36"),
        ] {
            assert_eq!(find(name).map(|material| &*material.designation), Ok(designation), "{name}");
        }
    }

    #[test]
    fn a_slip_of_spelling_finds_its_grade() {
        let error = find("Ti-6A1-4V").unwrap_err().to_string();
        assert_eq!(error, "no material is called `Ti-6A1-4V`: did you mean `Ti-6Al-4V, annealed`?");
    }

    #[test]
    fn no_two_grades_share_a_name() {
        let mut seen = std::collections::BTreeMap::new();
        for material in materials() {
            for own in names(material) {
                let other = seen.insert(folded(own), &material.designation);
                assert!(other.is_none_or(|other| *other == material.designation), "{own}: {other:?}");
            }
        }
    }
}
