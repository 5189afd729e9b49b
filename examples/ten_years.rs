//! Writes an invented record of ten years, the same at every run:
//! `cargo run --release --example ten_years > file.json`.

#[path = "ten_years/life.rs"]
mod life;

fn main() -> Result<(), String> {
    print!("{}", life::ten_years()?.0.text());
    Ok(())
}
