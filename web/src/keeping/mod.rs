//! Keeps the open record on this device while it is changed: what is typed is saved within a third of a second, and what
//! became of it stands on every view.

mod keeper;
mod status;

pub use keeper::{Keeper, Status};
pub use status::StatusView;

use crate::state::{Action, Content};
use std::rc::Rc;
use yew::prelude::*;

/// The keeper of this window and how the open record stands with it.
#[hook]
pub fn use_keeping(now: &Rc<Content>, send: &Callback<Action>) -> (Keeper, Status) {
    let status = use_state_eq(|| Status::Opening);
    let keeper = {
        let (status, send) = (status.setter(), send.clone());
        use_memo((), move |()| Keeper::new(move |now| status.set(now), send))
    };
    {
        let keeper = Keeper::clone(&keeper);
        use_effect_with((), move |()| {
            keeper.begin();
            move || keeper.end()
        });
    }
    {
        let (keeper, now) = (Keeper::clone(&keeper), Rc::clone(now));
        let key = (Rc::as_ptr(&now.record) as usize, now.id.clone());
        use_effect_with(key, move |_| keeper.changed(now));
    }
    (Keeper::clone(&keeper), (*status).clone())
}
