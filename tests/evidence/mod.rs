//! What every published figure must say: how it was seen, and in which work.

const SEEN: [&str; 7] = [
    "print",
    "memory",
    "common practice",
    "computed by hand",
    "computed with mpmath",
    "computed with numpy",
    "computed with scipy",
];

/// Words of a source that tell where a copy was found, or that one was, in the place of the work itself.
const NO_SOURCES: [&str; 10] = [
    "://",
    "www.",
    "stored page",
    "read in a",
    "web page",
    "web copy",
    "web site",
    "website",
    "maker's kind",
    "coromant's kind",
];

/// The ends of names of hosts.
const DOMAINS: [&str; 14] =
    ["com", "org", "net", "edu", "gov", "info", "io", "dev", "uk", "de", "fr", "cn", "ru", "jp"];

/// Fails where a figure does not say how it was seen, or names no work.
pub fn check(seen: &str, source: &str) -> Result<(), String> {
    if !SEEN.contains(&seen) {
        return Err(format!(
            "`{seen}` does not say how the figure was seen: write one of {}",
            SEEN.join(", ")
        ));
    }
    if source.trim().is_empty() {
        return Err("a line says where its figure was seen".into());
    }
    match place_of_a_copy(source) {
        Some(found) => Err(format!("`{found}` is no source: name the work itself")),
        None => Ok(()),
    }
}

/// What in a text tells where a copy was found: a web address, the name of a host, or the like.
pub fn place_of_a_copy(text: &str) -> Option<String> {
    let lower = text.to_lowercase();
    if let Some(found) = NO_SOURCES.iter().find(|words| lower.contains(**words)) {
        return Some((*found).into());
    }
    let of_a_host = |c: char| c.is_ascii_alphanumeric() || "-.".contains(c);
    let is_host = |word: &&str| {
        let labels: Vec<_> = word.trim_matches('.').split('.').collect();
        labels.len() > 1
            && labels.iter().all(|label| !label.is_empty())
            && labels.last().is_some_and(|end| DOMAINS.contains(end))
    };
    lower.split(|c: char| !of_a_host(c)).find(is_host).map(String::from)
}
