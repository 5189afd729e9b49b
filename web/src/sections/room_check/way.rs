//! The water's way with live values at every spot; it is also how one gets around.

use crate::ids;
use crate::sections::stages::OfStage;
use crate::sheet::checks::value;
use crate::sheet::judge::Judged;
use crate::sheet::mark::mark;
use crate::sheet::shown;
use crate::state::Filling;
use crate::text::WORDS;
use calc::documents::record::Held;
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Answer, Declaration, Value};
use calc::trade::plan::path::{Shown, Spot, WAY};
use yew::prelude::*;

/// All spots, from the tap to the drain.
pub fn way(
    stages: &[OfStage],
    judged: &Judged,
    filling: &Filling,
    sheet: &'static Declaration,
    set: UnitSet,
) -> Html {
    let of = Numbers { stages, judged, filling, sheet, set };
    html! {
        <nav class="way" aria-label={WORDS.section.way}>
            <ol>{ for WAY.iter().map(|spot| of.spot(spot)) }</ol>
        </nav>
    }
}

struct Numbers<'a> {
    stages: &'a [OfStage],
    judged: &'a Judged,
    filling: &'a Filling,
    sheet: &'static Declaration,
    set: UnitSet,
}

impl Numbers<'_> {
    fn spot(&self, spot: &'static Spot) -> Html {
        let of_spot =
            |stage: &&OfStage| stage.worst().is_some_and(|check| check.criterion.stage == spot.stage);
        let stage = self.stages.iter().find(of_spot);
        let worst = stage.and_then(OfStage::worst);
        let name = html! { <span class="spot-name">{ spot.name }</span> };
        html! {
            <li class="spot" data-state={worst.map(|check| check.state.id())}>
                if let Some(worst) = worst {
                    <a href={format!("#{}", ids::stage_line(spot.stage.id()))}>
                        { mark(worst.state) }{ name }<span class="unseen">{ ", " }{ stage.map(OfStage::state) }</span>
                    </a>
                } else {
                    <span class="spot-head">{ name }</span>
                }
                <dl>
                    { for spot.shows.iter().map(|(name, what)| html! {
                        <div><dt>{ *name }</dt><dd>{ self.shown(*what) }</dd></div>
                    }) }
                </dl>
            </li>
        }
    }

    fn shown(&self, what: Shown) -> Html {
        let said = match what {
            Shown::Entered(id) => self.entered(id),
            Shown::Answered(id) => self.answered(id),
            Shown::Checked(id, case) => self.checked(id, case),
            Shown::ByTest => return html! { <span class="missing">{ WORDS.section.by_test }</span> },
        };
        match said {
            Some(said) => html! { <strong>{ said }</strong> },
            None => html! { <span class="missing">{ WORDS.not_known }</span> },
        }
    }

    /// As it was typed, where it can be read; in the other units, and without a text, as it is known. What is refused is
    /// not known.
    fn entered(&self, id: &str) -> Option<String> {
        let index = self.sheet.input(id)?;
        let Some(Some(Value::Number(si))) = self.judged.values.get(index) else { return None };
        let field = &self.sheet.inputs[index];
        let of_set = field.term.unit(self.set == UnitSet::Us)?;
        match self.filling.entries.get(field.id).map(AsRef::as_ref) {
            Some(Held::One(typed)) if typed.shown_unit(field, self.set) == Some(of_set) => {
                match typed.own_unit(field) {
                    Some(_) => Some(typed.shown().trim().to_owned()),
                    None => Some(shown::with_unit(typed.shown().trim().to_owned(), of_set)),
                }
            }
            _ => Some(shown::quantity(*si, of_set)),
        }
    }

    fn answered(&self, id: &str) -> Option<String> {
        let index = self.sheet.output(id)?;
        match self.judged.assessment.answers.get(index)? {
            Answer::Number(si, kind) => Some(shown::answer(&self.sheet.outputs[index], *si, kind, self.set)),
            _ => None,
        }
    }

    fn checked(&self, id: &str, case: &str) -> Option<String> {
        let mut checks = self.judged.assessment.checks.iter();
        let check = checks.find(|check| check.criterion.id == id && check.case == case)?;
        check.value.is_finite().then(|| value(check, self.set))
    }
}
