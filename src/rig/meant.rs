//! What somebody may have meant by an answer that cannot be read: offered, never taken unasked.

use super::answer::read_answer;
use crate::facts::{FactDef, Kind};
use crate::quantity::{Dimension, parse_measure};
use crate::source::suggest;

/// How far "about" is offered to reach either way, in percent (common practice, no source).
const ABOUT: u32 = 5;

/// Words that leave a figure open to either side.
const ROUGHLY: [&str; 7] = [
    "about ",
    "approximately ",
    "approx. ",
    "approx ",
    "around ",
    "roughly ",
    "~",
];
/// Words for an upper end, and for a lower one.
const LIMITS: [(&str, &str); 10] = [
    ("less than ", "at most "),
    ("under ", "at most "),
    ("below ", "at most "),
    ("up to ", "at most "),
    ("no more than ", "at most "),
    ("more than ", "at least "),
    ("over ", "at least "),
    ("above ", "at least "),
    ("no less than ", "at least "),
    ("minimum ", "at least "),
];

/// An answer that reads, near to one that does not. `metric` says in which units a bare number is
/// taken to be.
///
/// ```
/// use pintle::facts::catalogue;
/// use pintle::rig::meant;
///
/// let weight = catalogue().def(catalogue().find("trailer.gross_weight").unwrap());
/// assert_eq!(meant(weight, "3000-3400 lb", false).as_deref(), Some("3000 to 3400 lb"));
/// assert_eq!(meant(weight, "4000", false).as_deref(), Some("4000 lb"));
/// assert_eq!(meant(weight, "a lot", false), None);
/// ```
#[must_use]
pub fn meant(def: &FactDef, text: &str, metric: bool) -> Option<String> {
    let text = text.trim().trim_matches(['"', '\'']).trim();
    let candidates = match def.kind {
        Kind::Measure(d) => measures(text, d, metric),
        Kind::Choice(_) | Kind::Set(_) => words(def, text),
        _ => vec![text.to_owned()],
    };
    let reads = |c: &String| read_answer(def, c).is_ok();
    candidates.into_iter().find(reads)
}

fn measures(text: &str, d: Dimension, metric: bool) -> Vec<String> {
    let lower = text.to_lowercase();
    let mut forms = vec![lower.clone(), spread(&lower), lower.replacen(',', ".", 1)];
    for word in ROUGHLY {
        if let Some(rest) = lower.strip_prefix(word) {
            let rest = rest.trim();
            forms.push(format!("{rest} +/- {ABOUT}%"));
            forms.push(format!("{} +/- {ABOUT}%", with_unit(rest, d, metric)));
        }
    }
    for (word, limit) in LIMITS {
        if let Some(rest) = lower.strip_prefix(word) {
            forms.push(format!("{limit}{}", rest.trim()));
        }
    }
    let mut out = Vec::new();
    for form in forms {
        out.push(form.clone());
        out.extend(parse_measure(&form, d).err().and_then(|e| e.suggestion));
        out.push(with_unit(&form, d, metric));
    }
    out
}

/// A range whose ends are joined by a dash: `3000-3400 lb`.
fn spread(text: &str) -> String {
    let dash = |(at, c): (usize, char)| {
        let before = text.get(..at)?.trim_end().chars().next_back()?;
        (matches!(c, '-' | '\u{2013}') && before.is_alphanumeric()).then_some((at, c.len_utf8()))
    };
    match text.char_indices().find_map(dash) {
        Some((at, len)) => {
            let (low, high) = (text.get(..at), text.get(at + len..));
            let (low, high) = (low.unwrap_or_default(), high.unwrap_or_default());
            format!("{} to {}", low.trim(), high.trim())
        }
        None => text.to_owned(),
    }
}

/// A bare number with the unit that is usual for it.
fn with_unit(text: &str, d: Dimension, metric: bool) -> String {
    let unit = match (d, metric) {
        (Dimension::Mass, false) => "lb",
        (Dimension::Mass, true) => "kg",
        (Dimension::Length, false) => "ft",
        (Dimension::Length, true) => "m",
        (Dimension::Speed, false) => "mph",
        (Dimension::Speed, true) => "km/h",
        (Dimension::Pressure, false) => "psi",
        (Dimension::Pressure, true) => "kPa",
        (Dimension::Force, false) => "lbf",
        (Dimension::Force, true) => "N",
        (Dimension::Angle, _) => "deg",
        (Dimension::Share, _) => "%",
        _ => return text.to_owned(),
    };
    // A ton is short in the one system, and a thousand kilograms in the other.
    let ton = if metric { "t" } else { "short tons" };
    for word in [" tons", " ton"] {
        if let (Dimension::Mass, Some(n)) = (d, text.strip_suffix(word)) {
            return format!("{n} {ton}");
        }
    }
    format!("{text} {unit}")
}

fn words(def: &FactDef, text: &str) -> Vec<String> {
    let names: Vec<&str> = def.kind.choices().iter().map(|c| c.name).collect();
    let one = |word: &str| {
        let word = word.trim().to_lowercase().replace(' ', "-");
        let mut begun = names.iter().filter(|n| n.starts_with(word.as_str()));
        let only = begun
            .next()
            .filter(|_| begun.next().is_none() && !word.is_empty());
        let near = || suggest::nearest(&word, names.iter().copied());
        only.copied().or_else(near).map(str::to_owned)
    };
    let parts: Option<Vec<String>> = text.split([',', ';']).map(one).collect();
    parts.map(|p| p.join(", ")).into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::catalogue;
    use rstest::rstest;

    #[rstest]
    #[case("trailer.gross_weight", "3000-3400 lb", false, Some("3000 to 3400 lb"))]
    #[case(
        "trailer.gross_weight",
        "3000 \u{2013} 3400",
        true,
        Some("3000 to 3400 kg")
    )]
    #[case(
        "trailer.gross_weight",
        "about 4,000 lb",
        false,
        Some("4,000 lb +/- 5%")
    )]
    #[case("trailer.gross_weight", "~4000", false, Some("4000 lb +/- 5%"))]
    #[case(
        "trailer.gross_weight",
        "less than 3000 lb",
        false,
        Some("at most 3000 lb")
    )]
    #[case("trailer.gross_weight", "2 tons", false, Some("2 short tons"))]
    #[case("trailer.gross_weight", "2 tons", true, Some("2 t"))]
    #[case("trailer.gross_weight", "1,5 t", true, Some("1.5 t"))]
    #[case("trailer.gross_weight", "\"4000 lb\"", false, Some("4000 lb"))]
    #[case("trailer.gross_weight", "heavy", false, None)]
    #[case("trip.speed", "60", false, Some("60 mph"))]
    #[case("trailer.kind", "boats", false, Some("boat"))]
    #[case("use", "priv", false, Some("private"))]
    #[case("trailer.lamps", "tail, stopp", false, Some("tail, stop"))]
    #[case("trailer.kind", "zzz", false, None)]
    fn offers(
        #[case] fact: &str,
        #[case] text: &str,
        #[case] metric: bool,
        #[case] offer: Option<&str>,
    ) {
        let def = catalogue().def(catalogue().find(fact).expect("a fact"));
        assert_eq!(meant(def, text, metric).as_deref(), offer);
    }
}
