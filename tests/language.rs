//! Every text that is said to a person can be said in another language.

use calc::documents::json::fill;
use calc::engine::language::{Language, Reader, Table, accented, id};
use calc::engine::quantity::UnitSet;
use calc::engine::reason;
use calc::engine::sheet::{Answer, Assessment, Declaration, How, Sentence, Slot};
use calc::program::catalogue;
use std::collections::{BTreeMap, BTreeSet};
use tests::rows;
use tests::texts::{has_words, read, texts, written};

/// The texts of ours that a sentence is made of.
fn of_sentence(sentence: &Sentence, said: &mut BTreeSet<&'static str>) {
    said.insert(sentence.template);
    for (_, slot) in &sentence.values {
        match slot {
            Slot::Word(word) => {
                said.insert(word);
            }
            Slot::Words(words) => said.extend(words),
            Slot::Told(inner) => of_sentence(inner, said),
            _ => {}
        }
    }
}

fn of_answer(answer: &Answer, declaration: &'static Declaration, said: &mut BTreeSet<&'static str>) {
    match answer {
        Answer::Choice(one) => {
            said.insert(one.name);
        }
        Answer::Word(text) => {
            said.insert(text);
        }
        Answer::Missing(missing) => {
            said.insert(missing.why);
            of_sentence(&reason::of_missing(missing, declaration), said);
        }
        Answer::Table(rows) => rows.iter().flatten().for_each(|cell| of_answer(cell, declaration, said)),
        _ => {}
    }
}

fn of_assessment(of: &Assessment, declaration: &'static Declaration, said: &mut BTreeSet<&'static str>) {
    of.answers.iter().for_each(|answer| of_answer(answer, declaration, said));
    of.problems.iter().for_each(|problem| of_sentence(&problem.sentence, said));
    of.warnings.iter().for_each(|warning| of_sentence(&warning.sentence, said));
    for check in &of.checks {
        of_sentence(&reason::of_check(check, declaration), said);
        said.extend([check.criterion.sentence, check.state.words(), check.case.name, check.season.name]);
        said.extend(check.missing.map(|missing| missing.why));
    }
    said.extend(of.cautions.iter().map(|caution| caution.text));
    for step in &of.steps {
        said.extend([step.case.name, step.season.name]);
        if let How::Procedure { what } = &step.how {
            of_sentence(what, said);
        }
    }
}

/// Everything that the sheets say to all rows of the tables of check values, the refused ones among them.
fn said() -> BTreeSet<&'static str> {
    let mut said = BTreeSet::new();
    for row in rows::all().expect("the tables of check values") {
        let Some(entry) = catalogue::find(&row.sheet) else { continue };
        let filled = fill(entry.declaration, &row.inputs);
        filled.problems.iter().for_each(|problem| of_sentence(&problem.sentence, &mut said));
        filled.warnings.iter().for_each(|warning| of_sentence(&warning.sentence, &mut said));
        of_assessment(&entry.figures(&filled.values, true), entry.declaration, &mut said);
    }
    said
}

#[test]
fn every_text_that_is_said_stands_in_the_table() {
    let (texts, said) = (texts(), said());
    assert!(said.len() > 500, "only {} texts were said", said.len());
    let lacking: Vec<&&str> =
        said.iter().filter(|text| has_words(text) && !texts.contains_key(&id(text))).collect();
    assert!(lacking.is_empty(), "{} texts are missing from the table: {lacking:#?}", lacking.len());
}

#[test]
fn a_file_that_was_translated_is_read_back() {
    let texts = texts();
    let told: BTreeMap<u32, String> =
        texts.iter().map(|(id, english)| (*id, accented(english).replace('\n', " "))).collect();
    let (table, faults) = read(&texts, &written(&texts, &told));
    assert_eq!(faults, Vec::<String>::new());
    let table = table_of(&table);
    let reader = Reader { units: UnitSet::Metric, language: Language::Translated(table) };
    let accents = Reader { language: Language::Accented, ..reader };
    let sentence = Sentence::plain("{name} counts whole ones: enter a whole number")
        .with("name", Slot::Word("Bed volume of the first carbon (worker)"));
    assert_eq!(sentence.tell(reader), sentence.tell(accents));
    assert_eq!(lacking(table, &texts), Vec::<&str>::new());
    let without_row = table_of("e40c292c\tein\n");
    assert_eq!(lacking(without_row, &texts).len(), texts.len());
}

fn table_of(lines: &str) -> &'static Table {
    let table = Table::read(lines.to_owned().leak()).expect("a table");
    Box::leak(Box::new(table))
}

/// The texts that a language lacks, or has with other places.
fn lacking<'a>(table: &Table, texts: &'a BTreeMap<u32, String>) -> Vec<&'a str> {
    texts.values().map(String::as_str).filter(|english| !table.has(english)).collect()
}

/// The languages that the page takes in lie beside its words.
#[test]
fn each_language_is_whole() {
    let texts = texts();
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../web/src/text");
    let files = std::fs::read_dir(folder).expect("the folder of the page's words").flatten();
    let tables =
        files.map(|file| file.path()).filter(|file| file.extension().is_some_and(|end| end == "tsv"));
    for file in tables {
        let lines = std::fs::read_to_string(&file).expect("a table");
        assert_eq!(lacking(table_of(&lines), &texts), Vec::<&str>::new(), "{}", file.display());
    }
    assert!(texts.len() > 2000, "there are only {} texts to be translated", texts.len());
}

#[test]
fn what_a_translator_can_do_wrong_is_named() {
    let texts = BTreeMap::from(["Row {row}", "Now"].map(|english| (id(english), english.to_owned())));
    let line = |english, told| format!("{:08x}\t{english}\t{told}\n", id(english));
    let faults = |lines: String| read(&texts, &lines).1.join("\n");
    assert_eq!(faults(line("Row {row}", "Zeile {row}") + &line("Now", "Jetzt")), "");
    assert!(faults(line("Row {row}", "Zeile") + &line("Now", "Jetzt")).contains("line 1: the places"));
    assert!(faults(line("Row {row}", "Zeile {row}") + &line("Now", "")).contains("is not translated: “Now”"));
    assert!(faults(line("gone", "weg")).contains("no text of this version"));
    assert!(faults("0 Zeile\n".to_owned()).contains("not three cells"));
}
