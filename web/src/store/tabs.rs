//! What windows tell each other. Every browser that can unpack this page has the channel; where it does not reach from
//! one local file to another, a window learns of the other's saving when it saves itself.

use super::Id;
use wasm_bindgen::prelude::*;
use web_sys::{BroadcastChannel, MessageEvent};

/// The channel to the other windows. What comes from it is a hint and no more: any local file could speak there.
pub struct Tabs {
    channel: BroadcastChannel,
    _heard: Closure<dyn Fn(MessageEvent)>,
}

impl Tabs {
    /// Hears of the records that other windows save.
    pub fn listen(heard: impl Fn(Id) + 'static) -> Option<Self> {
        let channel = BroadcastChannel::new(super::DATABASE).ok()?;
        let heard = Closure::<dyn Fn(MessageEvent)>::new(move |message: MessageEvent| {
            if let Some(id) = message.data().as_string().and_then(|id| Id::read(&id)) {
                heard(id);
            }
        });
        channel.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        Some(Self { channel, _heard: heard })
    }

    /// Tells the other windows that a record was saved.
    pub fn tell(&self, id: &Id) {
        // Whom it does not reach finds out by the revision.
        let _ = self.channel.post_message(&id.text().into());
    }
}

impl Drop for Tabs {
    fn drop(&mut self) {
        self.channel.close();
    }
}

/// The record that this window showed last, before it was loaded anew.
pub fn shown_here() -> Option<Id> {
    let kept = web_sys::window()?.session_storage().ok()??.get_item(SHOWN).ok()??;
    Id::read(&kept)
}

/// Remembers which record this window shows.
pub fn show_here(id: &Id) {
    let storage = web_sys::window().and_then(|window| window.session_storage().ok().flatten());
    if let Some(storage) = storage {
        // Where it is refused, the record that was open last in any window is opened next time.
        let _ = storage.set_item(SHOWN, id.text());
    }
}

const SHOWN: &str = "tapside.1.shown";
