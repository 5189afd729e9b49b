//! A number of the sheet, drawn over one of its entries.

use super::ToolProps;
use super::choose::{dials, fold, numbers};
use super::looked::{Seen, Sight, use_sight};
use super::sweep_chart::chart;
use super::swept::use_sweep;
use crate::chart::ChartView;
use crate::page::ids;
use crate::text::WORDS;
use std::rc::Rc;
use yew::prelude::*;

/// The sweep.
#[component]
pub fn SweepView(props: &ToolProps) -> Html {
    let of = |id: &str| ids::within(props.only, id);
    let open = use_state_eq(|| false);
    let (number, dial) = (use_state_eq(String::new), use_state_eq(String::new));
    let sight = use_sight(props, *open);
    let seen = match &sight {
        Sight::Seen(seen) => Some(seen),
        _ => None,
    };
    let swept = use_sweep(seen, &number, &dial);
    let drawn = use_memo(swept.clone().map(Same), |swept| {
        let swept = &swept.as_ref()?.0;
        let looked = &swept.seen.0;
        Some(Rc::new(chart(swept, looked.number(&swept.of.0)?, looked.dial(&swept.of.1)?)))
    });
    let inner = match &sight {
        Sight::Folded => Html::default(),
        Sight::Nothing(why) => html! { <p>{ *why }</p> },
        Sight::Seen(Seen(looked)) => html! {
            <>
                { numbers(of(ids::SWEEP_NUMBER), looked, looked.number(&number).map_or("", |one| &one.id), &number.setter()) }
                { dials((of(ids::SWEEP_ALONG), WORDS.tools.along), looked, looked.dial(&dial).map_or("", |one| &one.id), &dial.setter()) }
                <div class="chart-room">
                    if let Some(chart) = drawn.as_ref() {
                        <ChartView id={of(ids::SWEEP_CHART)} chart={Rc::clone(chart)} />
                    } else {
                        <p class="missing">{ WORDS.tools.computing }</p>
                    }
                </div>
            </>
        },
    };
    fold(of(ids::SWEEP), WORDS.tools.sweep, WORDS.tools.sweep_hint, &open, inner)
}

/// The same while it is one.
struct Same(Rc<super::swept::Swept>);

impl PartialEq for Same {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}
