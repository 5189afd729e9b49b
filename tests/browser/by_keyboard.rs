//! One sheet from the start view to its arithmetic, with the keyboard alone.

use crate::page::{Key, Page};
use crate::visit::{Screen, visit};

/// Goes on from control to control, until it is in what has this id.
async fn tabs_to(page: &Page, id: &str) {
    for _ in 0..100 {
        page.tabs().await;
        if page.focus().await == id {
            return;
        }
    }
    panic!("100 presses of the tabulator do not lead to {id}");
}

#[test]
fn contact_time_is_computed_and_opened() {
    visit(Screen::Desk, async |page| {
        tabs_to(page, "section-sheets").await;
        page.presses(Key::Enter).await;
        page.finds_itself_in("view").await;
        page.opens_sheet("carbon-contact-time").await;
        page.finds_itself_in("view").await;
        // past the answer, which links to the fields that it needs
        tabs_to(page, "bed-volume").await;
        page.types_there("28.3").await;
        page.tabs().await;
        page.finds_itself_in("bed-volume-unit").await;
        assert_eq!(page.stands_in("bed-volume-unit").await, "L");
        tabs_to(page, "flow").await;
        page.types_there("1.5").await;
        page.tabs().await;
        page.finds_itself_in("flow-unit").await;
        page.types_there("gpm").await;
        assert_eq!(page.stands_in("flow-unit").await, "gal/min");

        // 28.3 L / (1.5 gal/min · 3.785 411 784 L/gal) = 4.984 min
        page.gets("contact-time", "4.98 min").await;
        page.finds_check("contact-time", "not-met").await;

        tabs_to_arithmetic(page).await;
        page.presses(Key::Enter).await;
        page.waits_until("step-0", true).await;
        let numbers = "const fraction = [...document.querySelectorAll('#step-0 math mfrac')]
                .find(fraction => [...fraction.children].every(part => part.localName === 'mn'));
            const result = fraction.closest('p').nextElementSibling.querySelector('mn');
            return [...fraction.children, result].map(number => Number(number.textContent))";
        let numbers = page.asks(numbers).await;
        let [volume, flow, time] = [0, 1, 2].map(|index: usize| numbers[index].as_f64().unwrap_or(f64::NAN));
        assert_eq!(volume, 28.3);
        assert!((flow - 1.5 * 3.785_411_784).abs() < 1e-6, "{flow}");
        assert!((time - 4.984).abs() < 0.0005 && (volume / flow - time).abs() < 1e-6, "{time}");
        let drawn = "return document.querySelector('#step-0 mfrac').getBoundingClientRect().height";
        let (fraction, line) = (page.asks(drawn).await, page.height_of_line().await);
        assert!(fraction.as_f64() > Some(1.2 * line), "the fraction is not set as one: {fraction} of {line}");
    });
}

async fn tabs_to_arithmetic(page: &Page) {
    for _ in 0..100 {
        page.tabs().await;
        if page.asks("return document.activeElement.matches('#working > summary')").await == true {
            return;
        }
    }
    panic!("the arithmetic cannot be reached");
}
