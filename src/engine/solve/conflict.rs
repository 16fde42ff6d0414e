//! Where nothing is allowed: the smallest set of rules that cannot be kept together.

use std::collections::BTreeSet;

/// How many sets are tried before the smallest is no longer looked for, and a small one is taken.
const TRIES: usize = 50_000;

/// A smallest set of rules of which every one of these sets holds one: by size, the first that
/// does. Where there are too many to try, a small set of which none can be left out.
pub(super) fn smallest_conflict(broken: &[&BTreeSet<usize>]) -> Vec<usize> {
    let mut sets: Vec<&BTreeSet<usize>> = Vec::new();
    let mut by_size: Vec<&BTreeSet<usize>> = broken.to_vec();
    by_size.sort_by_key(|s| s.len());
    // A set that holds another is hit whenever that other is.
    for set in by_size {
        if !sets.iter().any(|s| s.is_subset(set)) {
            sets.push(set);
        }
    }
    let mut tries = TRIES;
    for size in 1..=sets.len() {
        match hit(&sets, &mut Vec::new(), size, &mut tries) {
            Some(found) => return found,
            None if tries == 0 => break,
            None => {}
        }
    }
    greedy(&sets)
}

fn hit(
    sets: &[&BTreeSet<usize>],
    chosen: &mut Vec<usize>,
    left: usize,
    tries: &mut usize,
) -> Option<Vec<usize>> {
    let Some(open) = sets.iter().find(|s| !s.iter().any(|r| chosen.contains(r))) else {
        return Some(chosen.clone());
    };
    if left == 0 || *tries == 0 {
        return None;
    }
    for rule in *open {
        *tries = tries.saturating_sub(1);
        chosen.push(*rule);
        if let Some(found) = hit(sets, chosen, left - 1, tries) {
            return Some(found);
        }
        chosen.pop();
    }
    None
}

/// The rule that most of the sets hold, again and again; then whatever can be left out is.
fn greedy(sets: &[&BTreeSet<usize>]) -> Vec<usize> {
    let mut chosen: Vec<usize> = Vec::new();
    let mut open: Vec<&BTreeSet<usize>> = sets.to_vec();
    while let Some(first) = open.first() {
        let count = |r: &&usize| open.iter().filter(|s| s.contains(*r)).count();
        let Some(best) = first.iter().max_by_key(count).copied() else {
            return Vec::new();
        };
        chosen.push(best);
        open.retain(|s| !s.contains(&best));
    }
    let mut at = 0;
    while at < chosen.len() {
        let mut fewer = chosen.clone();
        fewer.remove(at);
        if sets.iter().all(|s| fewer.iter().any(|r| s.contains(r))) {
            chosen = fewer;
        } else {
            at += 1;
        }
    }
    chosen
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case(vec![vec![1, 2], vec![2, 3]], 1)]
    #[case(vec![vec![1, 2], vec![3], vec![2, 3]], 2)]
    #[case(vec![vec![1], vec![2], vec![3]], 3)]
    #[case(vec![], 0)]
    fn the_smallest_set_is_found(#[case] sets: Vec<Vec<usize>>, #[case] size: usize) {
        let sets: Vec<BTreeSet<usize>> = sets.iter().map(|s| s.iter().copied().collect()).collect();
        let sets: Vec<&BTreeSet<usize>> = sets.iter().collect();
        let found = smallest_conflict(&sets);
        assert!(sets.iter().all(|s| found.iter().any(|r| s.contains(r))));
        assert_eq!(found.len(), size);
        assert!(
            sets.iter()
                .all(|s| greedy(&sets).iter().any(|r| s.contains(r)))
        );
    }
}
