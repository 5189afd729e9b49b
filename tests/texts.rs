//! Every text of the program that a person can read, as one table for whoever translates it.
//!
//! What is declared is walked through; the sentences in between are the literals of the sources. A literal that nobody
//! reads costs a translator a line; one that is missing here fails a test.

use calc::documents::record::kinds::{INSTRUMENT, KINDS};
use calc::engine::calendar::Month;
use calc::engine::language::id;
use calc::engine::quantity::kinds;
use calc::engine::sheet::source::{self, HowKnown};
use calc::engine::sheet::{Declaration, Draws, Field, Shape, Side, Spot, Stage, State};
use calc::program::{catalogue::SHEETS, evidence::EVIDENCE};
use calc::trade::cases;
use calc::trade::plan::{causes::SWITCHES, changes::CHANGES, walk};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Where texts are literals: files, or folders with everything in them.
const SOURCES: [&str; 2] = ["calc/src", "web/src/text"];
/// Of those, what holds symbols, ids and the titles of documents, which no language changes.
const NO_TEXTS: [&str; 4] = [
    "calc/src/engine/quantity/kinds.rs",
    "calc/src/engine/sheet/source.rs",
    "calc/src/engine/sheet/declare.rs",
    "web/src/text/language.rs",
];

/// The texts by their ids.
///
/// # Panics
/// Where two texts have one id: then one of them must be written in another way.
pub fn texts() -> BTreeMap<u32, String> {
    let mut all = BTreeMap::new();
    for text in declared().into_iter().map(str::to_owned).chain(literals()) {
        if !has_words(&text) {
            continue;
        }
        let before = all.insert(id(&text), text.clone());
        assert!(before.as_ref().is_none_or(|before| *before == text), "{before:?} and {text:?} have one id");
    }
    all
}

/// The file for a translator: a line for each text, with what is translated of it already.
pub fn written(texts: &BTreeMap<u32, String>, translated: &BTreeMap<u32, String>) -> String {
    let line = |(id, english): (&u32, &String)| {
        let told = translated.get(id).map_or("", String::as_str);
        format!("{id:08x}\t{}\t{told}\n", english.replace('\n', " "))
    };
    texts.iter().map(line).collect()
}

/// The table of a translated file, and what is wrong with the file: a text that it lacks, a line that is none of ours, a
/// place that was lost on the way.
pub fn read(texts: &BTreeMap<u32, String>, lines: &str) -> (String, Vec<String>) {
    let (mut table, mut faults) = (BTreeMap::new(), Vec::new());
    for (index, line) in lines.lines().enumerate() {
        let at = format!("line {}", index + 1);
        let cells: Vec<&str> = line.split('\t').collect();
        let [id, _, told] = cells[..] else {
            faults.push(format!("{at}: not three cells with tabs between them"));
            continue;
        };
        let id = u32::from_str_radix(id, 16).ok();
        let Some((id, english)) = id.and_then(|id| texts.get_key_value(&id)) else {
            faults.push(format!("{at}: no text of this version has that id"));
            continue;
        };
        if told.is_empty() {
            continue;
        }
        if !calc::engine::language::have_same_places(english, told) {
            faults.push(format!("{at}: the places are not those of “{english}”"));
        }
        table.insert(*id, told);
    }
    let lacking = texts.iter().filter(|(id, _)| !table.contains_key(id));
    faults.extend(lacking.map(|(id, english)| format!("{id:08x} is not translated: “{english}”")));
    (table.iter().map(|(id, told)| format!("{id:08x}\t{told}\n")).collect(), faults)
}

/// What declarations say.
fn declared() -> Vec<&'static str> {
    let mut all = Vec::new();
    for sheet in SHEETS.iter().map(|entry| entry.declaration) {
        of_sheet(sheet, &mut all);
    }
    for kind in KINDS {
        all.push(kind.name);
        of_fields(kind.fields, &mut all);
    }
    of_fields(INSTRUMENT, &mut all);
    for group in walk::AT_THE_TAP.iter().chain(walk::IN_DETAIL) {
        all.extend([group.name, group.about]);
    }
    for kind in kinds::LINEAR.iter().copied().chain([&kinds::TEMPERATURE, &kinds::NUMBER]) {
        all.push(kind.name);
        all.extend(kind.units.iter().map(|unit| unit.words));
    }
    all.extend(Stage::ALL.iter().map(|stage| stage.name()));
    let states = [State::NotMet, State::NotKnown, State::Marginal, State::Met, State::DoesNotApply];
    all.extend(states.map(State::words));
    for side in [Side::AtLeast, Side::AtMost, Side::Above, Side::Below] {
        all.extend([side.words(), side.needs()]);
    }
    let own = |known| matches!(known, HowKnown::CommonPractice | HowKnown::Derived | HowKnown::Entered);
    for source in source::ALL {
        all.push(source.known.words());
        all.extend(own(source.known).then_some(source.title));
    }
    all.extend(Month::ALL.iter().flat_map(|month| [month.name(), month.short()]));
    all.extend(cases::ALL.iter().map(|case| case.name));
    all.extend(CHANGES.iter().map(|change| change.name));
    all.extend(SWITCHES.iter().map(|switch| switch.name));
    all.extend(EVIDENCE.iter().map(|evidence| evidence.why));
    all
}

fn of_sheet(sheet: &'static Declaration, all: &mut Vec<&'static str>) {
    all.extend([sheet.name, sheet.about]);
    of_fields(sheet.inputs, all);
    of_fields(sheet.outputs, all);
    for criterion in sheet.criteria {
        all.push(criterion.sentence);
        all.extend(criterion.cases.iter().map(|case| case.name));
    }
    all.extend(sheet.cautions.iter().map(|caution| caution.text));
    for figure in sheet.figures {
        all.extend([figure.name, figure.about]);
        match &figure.draws {
            Draws::Stairs { quantity, along, steps, flights, .. } => {
                all.extend([*quantity, *along]);
                all.extend(*steps);
                all.extend(flights.iter().map(|flight| flight.name));
            }
            Draws::Lines(of) => {
                for panel in of.panels {
                    all.extend([panel.name, panel.quantity]);
                    all.extend(panel.lines.iter().map(|(name, _)| *name));
                    all.extend(panel.limit.map(|(_, _, name)| name));
                }
                all.extend(of.parted.as_ref().map(|parted| parted.label));
                all.extend(of.shaded.as_ref().map(|shaded| shaded.name));
            }
            Draws::Shares(_) => {}
            Draws::Clock(of) => all.push(of.full_name),
            Draws::Path { cases, spots } => {
                all.extend(cases.iter().map(|(_, name)| *name));
                let of_spot =
                    |spot: &'static Spot| spot.shows.iter().map(|(name, _)| *name).chain([spot.name]);
                all.extend(spots.iter().flat_map(of_spot));
            }
        }
    }
}

fn of_fields(fields: &'static [Field], all: &mut Vec<&'static str>) {
    for field in fields {
        all.extend([field.term.name, field.term.help, field.term.assumed]);
        match field.shape {
            Shape::Choice(named) => all.extend(named.iter().map(|one| one.name)),
            Shape::Table(columns) => of_fields(columns, all),
            _ => {}
        }
    }
}

/// The literals of the sources that are prose; of the page's own words, all.
fn literals() -> Vec<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut all = Vec::new();
    for source in SOURCES {
        let mut files = Vec::new();
        files_in(&root.join(source), &mut files);
        for file in files {
            let at = file.strip_prefix(&root).unwrap_or(&file).display().to_string();
            if NO_TEXTS.contains(&at.as_str()) || at.ends_with("tests.rs") {
                continue;
            }
            let text = std::fs::read_to_string(&file).unwrap_or_else(|error| panic!("{at}: {error}"));
            let code = text.split("#[cfg(test)]").next().unwrap_or_default();
            let found = literals_in(code);
            all.extend(found.into_iter().filter(|text| at.starts_with("web") || is_prose(text)));
        }
    }
    all
}

fn files_in(folder: &Path, files: &mut Vec<PathBuf>) {
    let entries = std::fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    for path in entries.flatten().map(|entry| entry.path()) {
        if path.is_dir() {
            files_in(&path, files);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            files.push(path);
        }
    }
}

/// What stands outside of the places of a text, and the words for one and for several.
fn outside(text: &str) -> String {
    let mut outside = String::new();
    let mut rest = text;
    while let Some((before, from)) = rest.split_once('{') {
        outside.push_str(before);
        let (place, after) = from.split_once('}').unwrap_or((from, ""));
        outside.extend(place.split_once('?').map(|(_, words)| words));
        rest = after;
    }
    outside + rest
}

/// Whether there is anything to translate.
pub fn has_words(text: &str) -> bool {
    outside(text).chars().any(char::is_alphabetic)
}

/// Whether a literal has words with a space between them, beside its places.
fn is_prose(text: &str) -> bool {
    let outside = outside(text);
    let mut words = outside.split(|c: char| !c.is_alphabetic()).filter(|word| word.chars().count() > 1);
    text.contains(' ') && words.next().is_some()
}

/// The string literals of a source without its comments.
fn literals_in(code: &str) -> Vec<String> {
    let mut all = Vec::new();
    let mut rest = code;
    while let Some(at) = rest.find(['"', '/', '\'', '#']) {
        let from = &rest[at..];
        rest = if from.starts_with("//") {
            from.find('\n').map_or("", |end| &from[end..])
        } else if let Some(quoted) = from.strip_prefix('"') {
            let (text, after) = literal(quoted);
            all.push(text);
            after
        } else if let Some(after) = from.strip_prefix("'\"'") {
            after
        } else if from.starts_with("'\\\"'") || from.starts_with("'\\''") {
            &from[4..]
        } else {
            let length = from.chars().next().map_or(1, char::len_utf8);
            &from[length..]
        };
    }
    all
}

/// A literal behind its first quote, and what follows it.
fn literal(quoted: &str) -> (String, &str) {
    let mut text = String::new();
    let mut chars = quoted.char_indices();
    while let Some((at, c)) = chars.next() {
        match c {
            '"' => return (text, &quoted[at + 1..]),
            '\\' => match chars.next() {
                Some((_, 'n')) => text.push('\n'),
                Some((_, 't')) => text.push('\t'),
                Some((_, 'u')) => {
                    let hex: String =
                        chars.by_ref().map(|(_, c)| c).skip(1).take_while(|c| *c != '}').collect();
                    text.extend(u32::from_str_radix(&hex, 16).ok().and_then(char::from_u32));
                }
                Some((_, '\n')) => {
                    let after = quoted[at + 2..].trim_start();
                    let (more, rest) = literal(after);
                    return (text + &more, rest);
                }
                Some((_, other)) => text.push(other),
                None => {}
            },
            other => text.push(other),
        }
    }
    (text, "")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn literals_are_read_as_the_compiler_reads_them() {
        let code =
            "// \"no\"\nlet a = \"one\"; let b = '\"'; f(\"two \\\"x\\\" \\\n   \\u{b5}\", 'a', \"\");";
        assert_eq!(literals_in(code), ["one", "two \"x\" µ", ""]);
    }

    #[test]
    fn prose_has_words_and_spaces() {
        assert!(is_prose("row {row} has nothing under {column}"));
        for other in ["carbon-contact-time", "{value} {unit}", "L/min", "{a} {b}"] {
            assert!(!is_prose(other), "{other}");
        }
    }
}
