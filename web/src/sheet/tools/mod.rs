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

use crate::still::Still;
use calc::quantity::UnitSet;
use calc::sheet::{Entry, Value};
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
