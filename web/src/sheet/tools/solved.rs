//! What solving backwards found, in words.

use super::looked::{DialOf, Looked};
use crate::sheet::shown;
use crate::text::{WORDS, alone, fill, tell};
use calc::engine::quantity::UnitSet;
use calc::engine::quantity::show::significant;
use calc::engine::sheet::Sentence;
use calc::engine::solve::Solution;
use yew::prelude::*;

/// Digits of a value that was found: one more than an answer has, since it is typed in again.
const DIGITS: usize = 4;

/// What was found.
pub struct Solved {
    /// The values.
    pub solution: Solution,
    /// That there is none, where there is none.
    pub none: Option<Sentence>,
}

/// All that was found, or plainly that there is nothing.
pub fn answer(solved: &Solved, dial: &DialOf, looked: &Looked, is_check: bool, set: UnitSet) -> Html {
    let words = if is_check { WORDS.tools.found_of_check } else { WORDS.tools.found };
    let (lines, jumps) = lines(&solved.solution, dial);
    let (low, high) = solved.solution.tried;
    let looked_for = fill(WORDS.tools.looked, &[("low", &value(low, dial)), ("high", &value(high, dial))]);
    let present = present(dial, looked);
    match &solved.none {
        Some(none) => html! {
            <>
                <p><strong>{ alone(&tell(none, set)) }</strong></p>
                <p class="missing">{ present }</p>
            </>
        },
        None => html! {
            <>
                <p>{ words[usize::from(lines.len() == 1)] }</p>
                <ul>{ for lines.iter().map(|line| html! { <li class="found-value">{ line }</li> }) }</ul>
                { for jumps.iter().map(|jump| html! { <p>{ jump }</p> }) }
                <p class="missing">{ format!("{present} {looked_for}") }</p>
            </>
        },
    }
}

/// Each value or stretch that was found, and each jump.
fn lines(solution: &Solution, dial: &DialOf) -> (Vec<String>, Vec<String>) {
    let words = &WORDS.tools;
    let is_whole = dial.dial.of.term.whole;
    let roots = solution.roots.iter().map(|root| {
        if is_whole && (root - root.round()).abs() > 1e-6 {
            let (low, high) = (value(root.floor(), dial), value(root.ceil(), dial));
            return fill(words.between_whole, &[("low", &low), ("high", &high)]);
        }
        fill(words.root, &[("name", &dial.name), ("value", &value(*root, dial))])
    });
    let stretches = solution.plateaus.iter().map(|(low, high)| {
        let (low, high) = (value(*low, dial), value(*high, dial));
        fill(words.stretch, &[("name", &dial.name), ("low", &low), ("high", &high)])
    });
    let jumps = solution.jumps.iter().map(|jump| fill(words.jump, &[("jump", &value(*jump, dial))]));
    (roots.chain(stretches).collect(), jumps.collect())
}

fn present(dial: &DialOf, looked: &Looked) -> String {
    if dial.dial.is_column(looked.case.as_ref()) {
        return String::new();
    }
    match dial.present {
        Some(present) => fill(WORDS.tools.present, &[("value", &value(present, dial))]),
        None => WORDS.tools.present_empty.to_owned(),
    }
}

fn value(si: f64, dial: &DialOf) -> String {
    let shown = dial.unit.of_si(si);
    let number = if dial.dial.of.term.whole { format!("{shown:.0}") } else { significant(shown, DIGITS) };
    shown::with_unit(number, dial.unit)
}

#[cfg(test)]
mod tests {
    use super::super::looked::tests::carbon;
    use super::*;
    use calc::engine::sheet::Field;

    fn solution(roots: &[f64], plateaus: &[(f64, f64)], jumps: &[f64]) -> Solution {
        Solution {
            roots: roots.to_vec(),
            plateaus: plateaus.to_vec(),
            jumps: jumps.to_vec(),
            tried: (0.0, 1.0),
            evaluations: 0,
        }
    }

    fn plain(lines: Vec<String>) -> Vec<String> {
        lines.into_iter().map(|line| line.replace('\u{a0}', " ")).collect()
    }

    #[test]
    fn every_value_is_said_with_its_unit() {
        let looked = carbon();
        let volume = looked.dial("bed-volume").unwrap();
        let (found, jumps) = lines(&solution(&[0.04], &[(0.05, 0.06)], &[0.01]), volume);
        let name = &volume.name;
        assert_eq!(
            plain(found),
            [format!("{name} 40.00 L"), format!("{name} anywhere from 50.00 L to 60.00 L")]
        );
        assert!(plain(jumps)[0].starts_with("At 10.00 L the result jumps"));
    }

    #[test]
    fn of_whole_things_there_are_no_parts() {
        let looked = carbon();
        let mut machines = looked.dial("bed-volume").unwrap().clone();
        let of = machines.dial.of;
        machines.dial.of = Box::leak(Box::new(Field { term: Box::leak(Box::new(of.term.whole())), ..*of }));
        let (found, _) = lines(&solution(&[2.4e-3, 3e-3], &[], &[]), &machines);
        // in litres the first is 2.4, but a whole number of the SI unit is asked
        assert_eq!(found[0], "no whole number; between 0\u{a0}L and 1000\u{a0}L");
    }
}
