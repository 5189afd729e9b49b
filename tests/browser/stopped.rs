//! A program that stopped shows no number any more: an old one would no longer follow what was typed.

use crate::page::Page;
use crate::visit::{Screen, visit};

/// Fills a sheet and knows its answer.
async fn computes(page: &Page) {
    page.opens_sheet("carbon-contact-time").await;
    page.fills(&[("bed-volume", "28,3 L"), ("flow", "1.5 gpm")]).await;
    page.gets("contact-time", "4.98 min").await;
}

/// The notice, and nothing of the answers.
async fn finds_the_notice(page: &Page, reason: &str) {
    page.sees("stopped", "The program stopped").await;
    page.sees("stopped", "Do not rely on a number from before").await;
    page.sees("stopped-message", reason).await;
    assert_eq!(page.asks("return document.getElementById('stopped').getAttribute('role')").await, "alert");
    for gone in ["app", "answers", "bed-volume"] {
        page.waits_until(gone, false).await;
    }
    let rest = page.asks("return document.body.textContent").await.to_string();
    assert!(!rest.contains("4.98"), "an old answer is still in the document");
    let kept = page.stands_in("kept").await;
    assert!(kept.contains("28,3 L") && kept.contains("1.5 gpm"), "what was typed is lost: {kept}");
    let saved = page.asks("return document.getElementById('stopped-save').href").await;
    assert!(saved.as_str().is_some_and(|address| address.starts_with("blob:")), "{saved}");
}

/// Begins anew by the button of the notice.
async fn starts_again(page: &Page) {
    page.clicks("stopped-again").await;
    page.sees("view", "Empty bed contact time (EBCT)").await;
    assert_eq!(page.stands_in("bed-volume").await, "");
}

#[test]
fn the_numbers_leave_the_screen() {
    visit(Screen::Desk, async |page| {
        computes(page).await;
        // the browser fails the program at its next change of the page
        let break_and_change = "Node.prototype.insertBefore = () => { throw new Error('no more nodes') };
            document.getElementById('rule-test-before-session').click()";
        page.asks(break_and_change).await;
        finds_the_notice(page, "panicked at").await;
        // a panic ends in a trap, which the browser reports
        let complaints = page.complaints().await;
        assert!(complaints.iter().any(|complaint| complaint.contains("unreachable")), "{complaints:?}");
        starts_again(page).await;

        computes(page).await;
        page.asks("setTimeout(() => { throw new Error('out of order') })").await;
        // the browser tells a page nothing of the error of a script that is not its own
        finds_the_notice(page, "Script error").await;
        let complaints = page.complaints().await;
        assert!(complaints.len() == 1 && complaints[0].contains("out of order"), "{complaints:?}");
        starts_again(page).await;

        computes(page).await;
        page.asks("tapside_stopped('a reason'); tapside_stopped('what follows from it')").await;
        finds_the_notice(page, "a reason").await;
    });
}
