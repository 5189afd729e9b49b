//! The fields of a form, one way to show each shape that a field can have.

mod cell;
mod choice;
mod frame;
mod line;
mod notes;
mod number;
mod rows_text;
mod table;
pub(crate) mod unit;

pub use notes::{Notes, Said};

use crate::page::still::Still;
use crate::state::{Action, Change};
use calc::documents::record::{Held, Typed};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Declaration, Field, Shape};
use gloo_timers::callback::Timeout;
use std::rc::Rc;
use yew::prelude::*;

/// How long after a field is left its errors are said, in milliseconds: what appears moves what stands below it, and
/// a click on that must have ended first.
const AFTER_CLICK: u32 = 200;

/// A field of a sheet, with what stands in it and what is said of it.
#[derive(Properties, PartialEq, Clone)]
pub struct FieldProps {
    /// The sheet.
    pub sheet: Still<Declaration>,
    /// The field.
    pub field: Still<Field>,
    /// What was typed.
    pub entry: Option<Rc<Held>>,
    /// The units first offered.
    pub set: UnitSet,
    /// What is wrong and what is unusual.
    pub notes: Notes,
    /// From where it was filled, where nobody typed it.
    #[prop_or_default]
    pub origin: AttrValue,
    /// Hears of every change.
    pub send: Callback<Action>,
}

impl FieldProps {
    fn typed(&self) -> Typed {
        match self.entry.as_deref() {
            Some(Held::One(typed)) => typed.clone(),
            _ => Typed::default(),
        }
    }

    fn sender(&self) -> Sender {
        Sender { sheet: self.sheet, field: self.field, send: self.send.clone() }
    }
}

/// Sends what happens in one field.
#[derive(Clone, PartialEq)]
struct Sender {
    sheet: Still<Declaration>,
    field: Still<Field>,
    send: Callback<Action>,
}

impl Sender {
    fn emit(&self, change: Change) {
        self.send.emit(Action::Field(self.sheet.0, self.field.0, change));
    }

    /// Sends what `change` makes of the event.
    fn on<E: 'static>(&self, change: impl Fn(E) -> Change + 'static) -> Callback<E> {
        let sender = self.clone();
        Callback::from(move |event| sender.emit(change(event)))
    }

    /// Called when the person goes into a field or cell: an error that is not yet said waits until it is left.
    fn entering(&self, id: &str, says_error: bool) -> Callback<FocusEvent> {
        let id = id.to_owned();
        if says_error { Callback::noop() } else { self.on(move |_| Change::Enter(id.clone())) }
    }

    fn leaving(&self, id: &str) -> Callback<FocusEvent> {
        let (sender, id) = (self.clone(), id.to_owned());
        Callback::from(move |_| {
            let (sender, id) = (sender.clone(), id.clone());
            Timeout::new(AFTER_CLICK, move || sender.emit(Change::Leave(id))).forget();
        })
    }
}

/// The text of an input.
fn text_of(event: InputEvent) -> String {
    event.target_unchecked_into::<web_sys::HtmlInputElement>().value()
}

/// The text of a field of several lines.
fn text_of_area(event: InputEvent) -> String {
    event.target_unchecked_into::<web_sys::HtmlTextAreaElement>().value()
}

/// The chosen value of a list.
fn chosen_of(event: Event) -> String {
    event.target_unchecked_into::<web_sys::HtmlSelectElement>().value()
}

/// One field, whatever its shape.
#[component]
pub fn FieldView(props: &FieldProps) -> Html {
    match props.field.shape {
        Shape::Number(_) => number::number(props),
        Shape::Choice(named) => choice::choice(props, named),
        Shape::Date | Shape::Moment | Shape::Text => line::line(props),
        Shape::Table(columns) => {
            html! { <table::TableField columns={table::Columns(columns)} field={props.clone()} /> }
        }
    }
}
