//! Sorting a few things.

/// Sorts a few things by a number, least first, equal ones as they stood: the sorts of std are made for many
/// things, and every use of one adds kilobytes to the page.
pub(crate) fn sort_few<T>(things: &mut [T], number: impl Fn(&T) -> f64) {
    for i in 1..things.len() {
        for j in (1..=i).rev() {
            let ordered = match things.get(j - 1..=j) {
                Some([a, b]) => number(a) <= number(b),
                _ => true,
            };
            if ordered {
                break;
            }
            things.swap(j - 1, j);
        }
    }
}
