//! A chart in a browser: it has a name and a sentence, and a cursor that says the values.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, reason = "a test that unwraps fails where it should")]

use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web::chart::{Axis, Chart, ChartProps, ChartView, Course, Limit, Mark, Series, Values, Wrong};
use web_sys::{Element, KeyboardEvent, KeyboardEventInit};

wasm_bindgen_test_configure!(run_in_browser);

/// 20 L over a flow, judged against 10 min: it crosses at 2 L/min.
fn contact_time() -> Chart {
    Chart {
        title: "Contact time over flow".into(),
        x: Axis::even("flow", "L/min"),
        y: Axis::even("contact time", "min"),
        xs: Values::of([1.0, 2.0, 4.0, 5.0]),
        series: vec![Series {
            name: "".into(),
            ys: Values::of([20.0, 10.0, 5.0, 4.0]),
            half_widths: Values::of([1.3]),
        }],
        limits: vec![Limit { words: "at least 10 min".into(), at: Course::Level(10.0), wrong: Wrong::Below }],
        marks: vec![Mark { x: 4.0, y: 5.0, words: "now".into() }],
        shades: Vec::new(),
        stepped: false,
    }
}

/// In an element of so many pixels; `style` as a property is not what the page's policy forbids.
async fn shown(chart: Chart, pixels: u32) -> Element {
    let document = web_sys::window().and_then(|window| window.document()).unwrap();
    let mount = document.create_element("div").unwrap();
    mount.set_attribute("style", &format!("width: {pixels}px; font-size: 16px")).unwrap();
    document.body().unwrap().append_child(&mount).unwrap();
    let props = ChartProps { id: "drawn".into(), chart: Rc::new(chart) };
    yew::Renderer::<ChartView>::with_root_and_props(mount.clone(), props).render();
    yew::platform::time::sleep(Duration::from_millis(50)).await;
    mount
}

fn part(mount: &Element, css: &str) -> Element {
    mount.query_selector(css).unwrap().unwrap_or_else(|| panic!("no {css} in {}", mount.inner_html()))
}

fn words(element: &Element) -> String {
    element.text_content().unwrap_or_default().replace('\u{a0}', " ")
}

#[wasm_bindgen_test]
async fn a_chart_is_named_and_described_and_takes_the_room_it_has() {
    let mount = shown(contact_time(), 400).await;
    let drawing = part(&mount, "svg");
    assert_eq!(drawing.get_attribute("role").as_deref(), Some("img"));
    assert_eq!(drawing.get_attribute("tabindex").as_deref(), Some("0"));
    assert_eq!(drawing.get_attribute("aria-labelledby").as_deref(), Some("drawn-title"));
    assert_eq!(words(&part(&mount, "#drawn-title")), "Contact time over flow");
    let summary = words(&part(&mount, "#drawn-summary"));
    assert!(summary.ends_with("crosses the limit (at least 10 min) at about 2.00 L/min."), "{summary}");
    // the figure's own margins are the browser's, 40 pixels on either side
    let room = drawing.get_attribute("viewBox").unwrap();
    assert!(room.starts_with("0 0 320.0 "), "{room}");
    assert_eq!(mount.query_selector_all("[style]").unwrap().length(), 0, "the page's policy forbids it");
    for css in [".chart-line-0", ".chart-interval", ".chart-limit", ".chart-hatch", ".chart-place"] {
        part(&mount, css);
    }
    mount.remove();
}

#[wasm_bindgen_test]
async fn the_arrow_keys_say_the_values() {
    let mount = shown(contact_time(), 400).await;
    let reads = async |key: &str| {
        let init = KeyboardEventInit::new();
        init.set_key(key);
        init.set_bubbles(true);
        let event = KeyboardEvent::new_with_keyboard_event_init_dict("keydown", &init).unwrap();
        part(&mount, "svg").dispatch_event(&event).unwrap();
        yew::platform::time::sleep(Duration::ZERO).await;
        words(&part(&mount, "[role=status]"))
    };
    assert_eq!(reads("Home").await, "Flow 1.00 L/min: contact time 20.0 ± 1.3 min.");
    assert_eq!(reads("ArrowRight").await, "Flow 2.00 L/min: contact time 10.0 min.");
    assert_eq!(reads("End").await, "Flow 5.00 L/min: contact time 4.00 min.");
    assert!(mount.query_selector(".chart-cursor").unwrap().is_some());
    assert!(reads("Escape").await.contains("arrow keys"));
    mount.remove();
}
