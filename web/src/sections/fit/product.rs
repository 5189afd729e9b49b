//! What is expected behind the membrane, contaminant by contaminant.

use super::answered;
use crate::sheet::judge::Judged;
use crate::sheet::missing::missing;
use crate::sheet::output_table::table;
use crate::text::WORDS;
use calc::quantity::UnitSet;
use calc::sheet::{Answer, Declaration};
use yew::prelude::*;

/// The table, or why there is none.
pub fn product(judged: &Judged, sheet: &'static Declaration, set: UnitSet) -> Html {
    let inner = match answered(judged, sheet, "contaminants") {
        Some((field, Answer::Table(rows))) => table(field, rows, sheet, set),
        Some((_, Answer::Missing(why))) => missing(why, sheet),
        _ => Html::default(),
    };
    html! {
        <section aria-labelledby="behind-the-membrane">
            <h3 id="behind-the-membrane">{ WORDS.section.behind_membrane }</h3>
            <p>{ WORDS.section.about_behind_membrane }</p>
            { inner }
        </section>
    }
}
