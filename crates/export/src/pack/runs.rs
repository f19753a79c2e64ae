//! Long lists made short: 'walls of sides 2 to 8', 'J to P'.

use gable_words::tr;

/// Fewer than this are said one by one.
const LEAST: usize = 3;

/// Joint letters as they are printed: runs of three or more that follow each other as 'J to P'.
pub(super) fn of_letters(letters: &[String]) -> Vec<String> {
    let said = |run: &[&String]| match (run.first(), run.last()) {
        (Some(first), Some(last)) => tr!("{first} to {last}"),
        _ => String::new(),
    };
    let list: Vec<&String> = letters.iter().collect();
    shortened(&list, |l| place(l), said, |l| (*l).clone())
}

/// Names of pieces of one part, runs of numbered sides as 'walls of sides 2 to 8'.
pub(super) fn of_names(names: &[&str]) -> Vec<String> {
    let said = |run: &[&str]| match (run.first().and_then(|n| side(n)), run.last().and_then(|n| side(n))) {
        (Some((first, what)), Some((last, _))) => format!("{what}s of sides {first} to {last}"),
        _ => run.join(" / "),
    };
    shortened(names, |name| side(name), said, |name| (*name).to_owned())
}

/// Runs in which every number is one more than the one before and all the rest is alike.
fn shortened<T, R: PartialEq>(
    list: &[T],
    number: impl Fn(&T) -> Option<(usize, R)>,
    run: impl Fn(&[T]) -> String,
    one: impl Fn(&T) -> String,
) -> Vec<String> {
    let follows = |a: &T, b: &T| match (number(a), number(b)) {
        (Some((i, what)), Some((j, other))) => j == i + 1 && what == other,
        _ => false,
    };
    let said = |part: &[T]| if part.len() < LEAST { part.iter().map(&one).collect() } else { vec![run(part)] };
    list.chunk_by(follows).flat_map(said).collect()
}

/// 0 for A, 25 for Z, 26 for AA.
fn place(letter: &str) -> Option<(usize, ())> {
    let digit = |place: usize, c: char| {
        let value = usize::try_from(u32::from(c).checked_sub(u32::from('A'))?).ok().filter(|v| *v < 26)?;
        place.checked_mul(26)?.checked_add(value + 1)
    };
    letter.chars().try_fold(0, digit)?.checked_sub(1).map(|n| (n, ()))
}

/// Number and kind of 'side 2 wall'.
fn side(name: &str) -> Option<(usize, &str)> {
    let (number, what) = name.strip_prefix("side ")?.split_once(' ')?;
    Some((number.parse().ok()?, what))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn letters(list: &str) -> String {
        of_letters(&list.split(' ').map(String::from).collect::<Vec<_>>()).join(" / ")
    }

    #[test]
    fn runs_of_letters_are_named_by_their_ends() {
        assert_eq!(letters("J K L M N O P"), "J to P");
        assert_eq!(letters("R Q S T U"), "R / Q / S to U");
        assert_eq!(letters("A B – C D"), "A / B / – / C / D");
        assert_eq!(letters("Y Z AA AB"), "Y to AB");
        assert_eq!(letters("H G F"), "H / G / F");
    }

    #[test]
    fn runs_of_sides_are_named_by_their_ends() {
        let said = of_names(&["front wall", "side 2 wall", "side 3 wall", "side 4 wall", "side 5 roof"]);
        assert_eq!(said, ["front wall", "walls of sides 2 to 4", "side 5 roof"]);
        assert_eq!(of_names(&["side 1 wall", "side 2 wall"]), ["side 1 wall", "side 2 wall"]);
        assert_eq!(of_names(&["side 1 wall", "side 3 wall", "side 4 wall"]).len(), 3);
    }
}
