//! The known name that a misspelt one was meant to be.

/// The known name nearest to `given`, if any is near: a third of its letters may differ.
pub(crate) fn nearest<'n>(given: &str, known: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    const LONGEST: usize = 40;
    if given.len() > LONGEST {
        return None;
    }
    let given = given.to_lowercase();
    let near = known.into_iter().map(|name| (distance(&given, name), name));
    near.filter(|&(distance, name)| distance <= name.len().div_ceil(3)).min().map(|(_, name)| name)
}

/// How many bytes to insert, leave out, replace or swap with their neighbour, counted along one alignment.
fn distance(given: &str, name: &str) -> usize {
    let (given, name) = (given.as_bytes(), name.as_bytes());
    let mut rows = [vec![0; name.len() + 1], (0..=name.len()).collect(), vec![0; name.len() + 1]];
    for (i, &letter) in given.iter().enumerate() {
        let [before, last, row] = &mut rows;
        row[0] = i + 1;
        for (j, &own) in name.iter().enumerate() {
            let mut least = (last[j] + usize::from(letter != own)).min(last[j + 1] + 1).min(row[j] + 1);
            if i > 0 && j > 0 && letter == name[j - 1] && given[i - 1] == own {
                least = least.min(before[j - 1] + 1);
            }
            row[j + 1] = least;
        }
        rows.rotate_left(1);
    }
    rows[1][name.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_find_their_name() {
        let known = ["spindle_speed", "feed_rate", "teeth", "time"];
        for (given, meant) in [
            ("spindel_speed", Some("spindle_speed")),
            ("Teeth", Some("teeth")),
            ("feedrate", Some("feed_rate")),
            ("coolant", None),
            ("", None),
        ] {
            assert_eq!(nearest(given, known), meant, "{given}");
        }
        assert_eq!(nearest(&"x".repeat(10_000), known), None);
    }

    // Counted by hand: one swap; one left out; three replaced; everything inserted.
    #[test]
    fn distances() {
        for (given, name, expected) in
            [("tihs", "this", 1), ("fed", "feed", 1), ("abc", "xyz", 3), ("", "ab", 2)]
        {
            assert_eq!(distance(given, name), expected);
        }
    }
}
