//! The nearest valid name to one that is not.

/// The candidate nearest to `name` by letters put in, left out, changed or swapped, without case; `None`
/// where none is near enough to be meant.
///
/// ```
/// use outlean_rigfile::nearest;
/// assert_eq!(nearest("spred", ["spread", "friction"]), Some("spread"));
/// assert_eq!(nearest("colour", ["spread", "friction"]), None);
/// ```
pub fn nearest<'a>(name: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let name = name.to_ascii_lowercase();
    let letters = name.chars().count();
    if letters > 60 {
        return None;
    }
    let near = (letters / 3).max(1);
    candidates
        .into_iter()
        .map(|candidate| (strsim::osa_distance(&name, &candidate.to_ascii_lowercase()), candidate))
        .filter(|(distance, candidate)| *distance <= near && *distance < candidate.chars().count())
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}
