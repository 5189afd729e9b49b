//! A field of a form in a browser: what is typed reaches the page's state, and what is said of it reaches the field.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, reason = "a test that unwraps fails where it should")]

use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;

use calc::documents::record::{Held, Typed};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::Declaration;
use wasm_bindgen::JsCast;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web::Still;
use web::fields::{FieldProps, FieldView, Notes, Said};
use web::state::{Action, Change, find};
use web_sys::{Element, HtmlInputElement};
use yew::prelude::*;

wasm_bindgen_test_configure!(run_in_browser);

fn sheet() -> &'static Declaration {
    find("carbon-contact-time").unwrap().declaration
}

fn field(index: usize, entry: Option<Typed>, notes: Notes, send: Callback<Action>) -> FieldProps {
    let entry = entry.map(|typed| Rc::new(Held::One(typed)));
    FieldProps {
        sheet: Still(sheet()),
        field: Still(&sheet().inputs[index]),
        entry,
        set: UnitSet::Metric,
        notes,
        origin: AttrValue::default(),
        send,
    }
}

async fn shown(props: FieldProps) -> Element {
    let document = web_sys::window().and_then(|window| window.document()).unwrap();
    let mount = document.create_element("div").unwrap();
    document.body().unwrap().append_child(&mount).unwrap();
    yew::Renderer::<FieldView>::with_root_and_props(mount.clone(), props).render();
    yew::platform::time::sleep(Duration::ZERO).await;
    mount
}

fn input(mount: &Element) -> HtmlInputElement {
    mount.query_selector("input").unwrap().unwrap().dyn_into().unwrap()
}

#[wasm_bindgen_test]
async fn a_number_is_named_by_its_label_and_has_every_unit() {
    let mount = shown(field(0, None, Notes::default(), Callback::noop())).await;
    let label = mount.query_selector("label").unwrap().unwrap();
    assert_eq!(label.get_attribute("for").as_deref(), Some("bed-volume"));
    assert_eq!(input(&mount).id(), "bed-volume");
    assert_eq!(input(&mount).get_attribute("inputmode").as_deref(), Some("decimal"));
    let units = sheet().inputs[0].term.kind.unwrap().units.len();
    assert_eq!(mount.query_selector_all("#bed-volume-unit option").unwrap().length() as usize, units);
    mount.remove();
}

#[wasm_bindgen_test]
async fn an_error_stands_beside_the_field_and_is_tied_to_it() {
    let typed = Typed::new(&find("carbon-contact-time").unwrap().declaration.inputs[0], "1,234", None);
    let said = Said { at: "bed-volume".into(), text: "“1,234” could mean two numbers.".into() };
    let notes = Notes { errors: vec![said], warnings: Vec::new() };
    let mount = shown(field(0, Some(typed), notes, Callback::noop())).await;
    let input = input(&mount);
    assert_eq!(input.value(), "1,234");
    assert_eq!(input.get_attribute("aria-invalid").as_deref(), Some("true"));
    let described_by = input.get_attribute("aria-describedby").unwrap_or_default();
    assert!(described_by.split(' ').any(|id| id == "bed-volume-error"), "{described_by}");
    let error = mount.query_selector("#bed-volume-error").unwrap().unwrap();
    assert!(error.text_content().unwrap_or_default().contains("could mean two numbers"));
    mount.remove();
}

#[wasm_bindgen_test]
async fn what_is_typed_is_told_as_it_was_typed() {
    let heard = Rc::new(RefCell::new(Vec::new()));
    let send = {
        let heard = Rc::clone(&heard);
        Callback::from(move |action: Action| {
            if let Action::Field(_, field, Change::Text(text)) = action {
                heard.borrow_mut().push((field.id, text));
            }
        })
    };
    let mount = shown(field(2, None, Notes::default(), send)).await;
    let input = input(&mount);
    input.set_value(" 1,5 gpm");
    let init = web_sys::EventInit::new();
    init.set_bubbles(true);
    input.dispatch_event(&web_sys::Event::new_with_event_init_dict("input", &init).unwrap()).unwrap();
    assert_eq!(*heard.borrow(), [("flow", " 1,5 gpm".to_owned())]);
    mount.remove();
}
