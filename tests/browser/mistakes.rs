//! What is typed wrong is said beside its field and above all fields, stays as it was typed, and takes no other answer
//! away.

use crate::page::Page;
use crate::visit::{Screen, visit};

/// Something typed wrong, and what follows.
struct Mistake {
    /// Where: a field or a cell.
    at: &'static str,
    /// What is typed.
    typed: &'static str,
    /// A part of the sentence that is said.
    says: &'static str,
    /// Answers meanwhile.
    meanwhile: &'static [(&'static str, &'static str)],
    /// What is right there.
    right: &'static str,
}

/// The text with fields, such as `{recovery.reject-flow}`, as the page calls them.
fn named(text: &str) -> String {
    let Some((before, rest)) = text.split_once('{') else { return text.to_owned() };
    let (field, after) = rest.split_once('}').expect("a field in braces");
    let (sheet, field) = field.split_once('.').expect("a sheet and a field");
    let sheet = calc::program::catalogue::find(sheet).expect("a sheet").declaration;
    let field = &sheet.inputs[sheet.input(field).expect("a field")];
    format!("{before}{}{after}", field.term.name)
}

/// Makes the mistake, goes where the summary leads, and mends it. `field` is where its error stands.
async fn makes(page: &Page, field: &str, mistake: &Mistake, right: &[(&str, &str)]) {
    let &Mistake { at, typed, says, meanwhile, right: mended } = mistake;
    let error = format!("{field}-error");
    page.types(at, typed).await;
    page.tabs().await;
    page.sees(&error, says).await;
    page.sees("error-summary", says).await;
    assert_eq!(page.stands_in(at).await, typed, "what was typed at {at}");
    assert!(page.says_invalid(at).await, "{at} is not marked as wrong");
    page.sees("left-out", "Not used until fixed").await;
    for (output, answer) in meanwhile {
        page.gets(output, &named(answer)).await;
    }

    page.clicks_on("#error-summary a").await;
    page.finds_itself_in(at).await;
    assert_eq!(page.stands_in(at).await, typed, "what was typed at {at}");

    page.types(at, mended).await;
    page.tabs().await;
    for gone in [&error, "error-summary", "left-out"] {
        page.waits_until(gone, false).await;
    }
    for (output, answer) in right {
        page.gets(output, answer).await;
    }
}

#[test]
fn on_three_sheets() {
    visit(Screen::Desk, async |page| {
        in_the_contact_time(page).await;
        in_the_log_of_a_heat_disinfection(page).await;
        in_the_pressure_at_the_inlet(page).await;
    });
}

#[test]
fn between_two_fields() {
    visit(Screen::Desk, async |page| {
        a_recovery_of_all_the_water_is_refused(page).await;
        swapped_conductivities_are_found(page).await;
        an_empty_field_is_named_where_it_is_needed(page).await;
        what_is_unusual_is_computed_and_said(page).await;
    });
}

async fn in_the_contact_time(page: &Page) {
    const NEEDS_FLOW: &[(&str, &str)] = &[
        ("contact-time", "not known: enter {carbon-contact-time.flow}"),
        ("total-contact-time", "not known: enter {carbon-contact-time.flow}"),
    ];
    let right = [("contact-time", "4.98 min"), ("total-contact-time", "9.97 min")];
    let flow = |typed, says| Mistake { at: "flow", typed, says, meanwhile: NEEDS_FLOW, right: "1.5 gpm" };
    page.opens_sheet("carbon-contact-time").await;
    page.fills(&[("bed-volume", "28,3"), ("second-bed-volume", "28.3 L"), ("flow", "1.5 gpm")]).await;
    for (output, answer) in right {
        page.gets(output, answer).await;
    }
    for mistake in [
        flow("abc", "“abc” does not begin with a number"),
        flow("1.5.0", "“1.5.0” has more than one decimal mark"),
        flow("1,234", "“1,234” could mean two numbers: write 1.234 or 1234"),
        flow("2 psi", "“psi” is a unit of gauge pressure"),
        flow("-2", "cannot be"),
    ] {
        makes(page, "flow", &mistake, &right).await;
    }
    let second = Mistake {
        at: "second-bed-volume",
        typed: "a lot",
        says: "“a lot” does not begin with a number",
        // what may be left out is not left out when it cannot be read
        meanwhile: &[("contact-time", "not known: enter {carbon-contact-time.second-bed-volume}")],
        right: "28.3 L",
    };
    makes(page, "second-bed-volume", &second, &right).await;
}

async fn an_empty_field_is_named_where_it_is_needed(page: &Page) {
    page.opens_sheet("carbon-contact-time").await;
    page.fills(&[("bed-volume", "28.3"), ("flow", "1.5 gpm"), ("flow", "")]).await;
    page.gets("contact-time", &named("not known: enter {carbon-contact-time.flow}")).await;
    page.clicks_on("#out-contact-time a").await;
    page.finds_itself_in("flow").await;
    page.types_there("1.5 gpm").await;
    page.gets("contact-time", "4.98 min").await;
}

async fn in_the_log_of_a_heat_disinfection(page: &Page) {
    page.opens_sheet("heat-dose").await;
    page.clicks("log-add").await;
    page.clicks("log-add").await;
    page.fills(&[
        ("log-0-time", "0"),
        ("log-0-temperature", "80"),
        ("log-1-time", "60"),
        ("log-1-temperature", "80"),
        ("log-2-time", "120"),
        ("log-2-temperature", "80"),
        // the longest gap that counts, whatever is typed
        ("longest-gap", "120"),
    ])
    .await;
    // held at 80 °C, each second counts as one
    let right = [("dose", "120 s")];
    page.gets("dose", "120 s").await;
    const NEEDS_LOG: &[(&str, &str)] = &[("dose", "not known")];
    let cell = |at, typed, says, right| Mistake { at, typed, says, meanwhile: NEEDS_LOG, right };
    for mistake in [
        cell("log-1-temperature", "hot", "row 2: “hot” does not begin with a number", "80"),
        cell("log-1-temperature", "-300", "cannot be", "80"),
        cell("log-1-temperature", "1,234", "“1,234” could mean two numbers", "80"),
        cell("log-2-time", "10.0.0", "“10.0.0” has more than one decimal mark", "120"),
        cell("log-2-time", "30", "runs backwards in row 3", "120"),
    ] {
        makes(page, "log", &mistake, &right).await;
    }
}

async fn in_the_pressure_at_the_inlet(page: &Page) {
    page.opens_sheet("inlet-pressure").await;
    page.fills(&[
        ("shut-pressure", "2.1"),
        ("open-flow", "10"),
        ("open-pressure", "1.55"),
        ("running-flow", "3.0"),
        ("flush-flow", "4.5"),
        ("tap-temperature", "12"),
        ("filter-drop", "0.15"),
        ("filter-drop-flow", "3.0"),
        ("line-drop", "0.20"),
        ("line-drop-flow", "3.0"),
        ("least-inlet-pressure", "1.0"),
    ])
    .await;
    // 2.1 − 0.55 · 0.45² − 0.15 · 1.5 − 0.20 · 1.5^1.75 = 1.357 bar; running 2.1 − 0.55 · 0.09 − 0.35 = 1.70 bar
    let right = [("inlet-pressure-running", "1.70 bar"), ("inlet-pressure-flush", "1.36 bar")];
    for (output, answer) in right {
        page.gets(output, answer).await;
    }
    let mistake = |at, typed, says, meanwhile, right| Mistake { at, typed, says, meanwhile, right };
    let cold = mistake(
        "tap-temperature",
        "-300 °C",
        "cannot be",
        &[("inlet-pressure-flush", "not known: enter {inlet-pressure.tap-temperature}")],
        "12",
    );
    let flush = mistake(
        "flush-flow",
        "4.5.0",
        "more than one decimal mark",
        &[
            ("inlet-pressure-running", "1.70 bar"),
            ("inlet-pressure-flush", "not known: enter {inlet-pressure.flush-flow}"),
        ],
        "4.5",
    );
    let drop = mistake(
        "filter-drop",
        "clean",
        "“clean” does not begin with a number",
        &[("inlet-pressure-running", "not known: enter {inlet-pressure.filter-drop}")],
        "0.15",
    );
    for mistake in [cold, flush, drop] {
        makes(page, mistake.at, &mistake, &right).await;
    }
}

async fn a_recovery_of_all_the_water_is_refused(page: &Page) {
    page.opens_sheet("recovery").await;
    page.fills(&[("product-flow", "1.5"), ("reject-flow", "1.5")]).await;
    let right = [("recovery", "50.0 %")];
    page.gets("recovery", "50.0 %").await;
    let mistake = Mistake {
        at: "reject-flow",
        typed: "0",
        says: "cannot be",
        meanwhile: &[("recovery", "not known: enter {recovery.reject-flow}")],
        right: "1.5",
    };
    makes(page, "reject-flow", &mistake, &right).await;
}

async fn swapped_conductivities_are_found(page: &Page) {
    page.opens_sheet("rejection").await;
    page.fills(&[("feed-conductivity", "640"), ("product-conductivity", "21")]).await;
    // 21/640
    let right = [("rejection", "96.7 %"), ("salt-passage", "3.28 %")];
    page.gets("rejection", "96.7 %").await;
    page.fills(&[("product-conductivity", "700")]).await;
    page.gets("rejection", "−9.38 %").await;
    page.finds_check("product-below-feed", "not-met").await;
    page.sees("caution-product-above-feed", "swapped probes or samples").await;
    page.fills(&[("product-conductivity", "21")]).await;
    for (output, answer) in right {
        page.gets(output, answer).await;
    }
    page.finds_check("product-below-feed", "met").await;
}

async fn what_is_unusual_is_computed_and_said(page: &Page) {
    page.opens_sheet("carbon-contact-time").await;
    page.fills(&[("bed-volume", "300"), ("flow", "1.5 gpm")]).await;
    // 300 L / 5.678 L/min
    page.gets("contact-time", "52.8 min").await;
    page.sees("bed-volume-warning", "Check this entry:").await;
    page.sees("answers", "Check these entries").await;
    assert!(!page.is_there("error-summary").await);
    page.types("bed-volume", "28.3").await;
    page.waits_until("bed-volume-warning", false).await;
}
