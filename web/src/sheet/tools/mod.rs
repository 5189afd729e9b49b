//! What can be done with any sheet beside reading its answers: draw a number over an entry, solve backwards, see where
//! the uncertainty comes from. All of it follows from the declaration, and is computed only while it can be seen.

mod backwards;
mod choose;
mod looked;
mod shares;
mod solved;
mod sweep;
mod sweep_chart;
mod swept;

use crate::page::ids;
use crate::page::still::Still;
use crate::text::WORDS;
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Entry, Stage, Value};
use std::rc::Rc;
use yew::prelude::*;

/// What the tools act on.
#[derive(Properties, PartialEq, Clone)]
pub struct ToolProps {
    /// The sheet.
    pub entry: Still<Entry>,
    /// What was read.
    pub values: Rc<Vec<Option<Value>>>,
    /// Whether every entry could be taken.
    pub is_whole: bool,
    /// The units of the page.
    pub set: UnitSet,
    /// Of a plan, the stage to whose numbers they are kept.
    #[prop_or_default]
    pub only: Option<Stage>,
}

/// The tools, each folded until somebody asks for it.
pub fn tools(props: &ToolProps) -> Html {
    html! {
        <>
            <sweep::SweepView ..props.clone() />
            <backwards::BackwardsView ..props.clone() />
            <shares::SharesView ..props.clone() />
        </>
    }
}

/// The tools for the numbers of one stage, in a fold of their own: nothing of them is there until it is opened.
#[component]
pub fn StageTools(props: &ToolProps) -> Html {
    let open = use_state_eq(|| false);
    let inner = if *open { tools(props) } else { Html::default() };
    let id = ids::within(props.only, ids::TOOLS);
    choose::fold(id, WORDS.tools.of_stage, WORDS.tools.of_stage_hint, &open, inner)
}
