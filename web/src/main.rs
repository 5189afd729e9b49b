//! The program of the page.

fn main() {
    web::start();
}
