use super::*;
use crate::engine::quantity::UnitSet;
use crate::engine::sheet::Shape;
use crate::program::catalogue::find;

fn columns(sheet: &str, field: &str) -> &'static [Field] {
    let sheet = find(sheet).unwrap().declaration;
    match sheet.inputs.iter().find(|input| input.id == field).unwrap().shape {
        Shape::Table(columns) => columns,
        _ => panic!("{field} is no table"),
    }
}

fn report() -> &'static [Field] {
    columns("chemical-limits", "product-report")
}

fn log() -> &'static [Field] {
    columns("heat-dose", "log")
}

fn said(remarks: &[Remark]) -> Vec<String> {
    remarks
        .iter()
        .map(|remark| format!("{} {}: {}", remark.line, remark.column, remark.sentence.show(UnitSet::Metric)))
        .collect()
}

#[test]
fn a_laboratory_s_lines_are_read_and_the_others_told() {
    let text = "Result [µg/L],Remark,Analyte\n5,,aluminium\n<5,see below,Lead\nND,,Copper\n\"1,7\",,nitrate\n2,,kryptonite\nabc,,Zinc\n";
    let read = read(report(), text).unwrap();
    assert_eq!(read.units[1].map(|unit| unit.symbol), Some("µg/L"));
    assert_eq!(read.rows, [["aluminium", "5"], ["lead", "<5"], ["copper", "ND"], ["zinc", "abc"]]);
    assert_eq!(read.left_out, 2);
    let said = said(&read.remarks);
    // the line that it is, also after one whose cell was only unread
    assert!(said[0].starts_with("4 Result: "), "{said:?}");
    assert!(
        said[1].starts_with("5 Substance (analyte): “nitrate” could be “Nitrate, as N” or “Nitrate, as NO3”"),
        "{said:?}"
    );
    assert!(said[2].starts_with("6 Substance (analyte): “kryptonite” is no value"), "{said:?}");
    assert!(said[3].starts_with("7 Result: "), "{said:?}");
}

#[test]
fn a_unit_that_nobody_knows_refuses_everything() {
    let refused = read(report(), "analyte,result (grains)\nlead,5\n").unwrap_err();
    assert!(refused.show(UnitSet::Metric).starts_with("“grains” over Result is no unit"), "{refused:?}");
    assert!(read(report(), "lead,5\nzinc,1").is_ok(), "without a head in the order of the columns");
    let nothing = read(report(), "hello\nworld").unwrap_err();
    assert!(nothing.show(UnitSet::Metric).contains("Substance (analyte); Result"), "{nothing:?}");
    for empty in ["", " \n\n", "analyte,result\n"] {
        assert!(read(report(), empty).is_err(), "{empty:?}");
    }
    assert!(read(report(), &"x".repeat(LONGEST + 1)).is_err());
    let many = format!("analyte,result\n{}", "lead,1\n".repeat(MOST_ROWS + 1));
    assert!(read(report(), &many).is_err());
}

#[test]
fn clock_times_are_counted_from_the_first_across_midnight() {
    let read_times = |text: &str| {
        let time = log().iter().position(|column| column.id == "time").unwrap();
        read(log(), text).unwrap().rows.into_iter().map(|row| row[time].clone()).collect::<Vec<_>>()
    };
    let night = "time;temperature (°C)\n23:59:30;80\n23:59:45;81\n00:00:15,5;80\n";
    // a decimal comma in a clock is no clock, and is told by the reader of the cell
    assert_eq!(read_times(night), ["0 s", "15 s", "00:00:15,5"]);
    assert_eq!(read_times("time,temperature\n23:59:30,80\n00:00:15.5,80\n"), ["0 s", "45.5 s"]);
    // summer time ends in the night of 25 October 2026 in Europe: the clock goes back by an hour, and that is seen
    assert_eq!(read_times("time,temperature\n02:59:00,80\n02:01:00,80\n"), ["0 s", "-3480 s"]);
    assert_eq!(
        read_times("time,temperature\n2026-11-25T23:00,80\n2026-11-26T01:00:01,80\n"),
        ["0 s", "7201 s"]
    );
    // what is no clock stays as it is
    assert_eq!(read_times("time,temperature\n60,80\n2 min,80\n"), ["60", "2 min"]);
}

#[test]
fn what_is_written_is_read_again() {
    let units = [None, crate::engine::quantity::kinds::CONCENTRATION.written("µg/L")];
    let rows = vec![
        vec!["nitrate-n".to_owned(), "1,7".to_owned()],
        vec!["lead".to_owned(), "<5".to_owned()],
        vec!["zinc".to_owned(), "1 \"or\" 2".to_owned()],
    ];
    let text = write(report(), &units, &rows);
    let again = read(report(), &text).unwrap();
    assert_eq!((again.rows, again.units), (rows, units.to_vec()));
}

#[test]
fn no_cell_is_a_formula_to_a_spreadsheet() {
    let rows = vec![
        vec!["lead".to_owned(), "=HYPERLINK(\"x\")".to_owned()],
        vec!["zinc".to_owned(), "-5".to_owned()],
    ];
    let text = write(report(), &[], &rows);
    assert!(text.contains("\"'=HYPERLINK(\"\"x\"\")\"") && text.contains(",-5\r\n"), "{text}");
}

#[test]
fn a_column_of_units_counts_line_by_line() {
    let read =
        read(report(), "Analyte,Result,Unit,Lab\nLead,1,µg/L,A\nCopper,0.2,mg/L,A\nZinc,3,furlong,A\n")
            .unwrap();
    assert_eq!(read.rows, [["lead", "1 µg/L"], ["copper", "0.2 mg/L"]]);
    assert_eq!((read.left_out, read.ignored), (1, vec!["Lab".to_owned()]));
    // an exponent is no unit, and one that the number names itself counts
    let text = "Analyte,Result,Unit\nLead,1e-3,µg/L\nZinc,<5,µg/L\nCopper,0.2 mg/L,µg/L\nTin,ND,µg/L\n";
    let texts: Vec<String> =
        super::read(report(), text).unwrap().rows.into_iter().map(|row| row[1].clone()).collect();
    assert_eq!(texts, ["1e-3 µg/L", "<5 µg/L", "0.2 mg/L", "ND µg/L"]);
    // of several columns of numbers it could mean any
    assert!(super::read(log(), "time,temperature,unit\n1,80,C\n").is_err());
    assert!(super::read(report(), "Analyte,Result,Result (µg/L)\nLead,1,2\n").is_err(), "one column twice");
}

#[test]
fn a_beginning_is_no_name() {
    for (name, id) in
        [("Nitrate as N", Some("nitrate-n")), ("Lead", Some("lead")), ("Alumin", Some("aluminium"))]
    {
        let read = read(report(), &format!("analyte,result\n{name},1\n")).ok();
        assert_eq!(read.map(|read| read.rows[0][0].clone()), id.map(str::to_owned), "{name}");
    }
    for name in ["pH", "Co", "Ti", "I", "Total", "Nitrate"] {
        assert!(read(report(), &format!("analyte,result\n{name},1\n")).is_err(), "{name}");
    }
}

#[test]
fn two_parts_of_a_clock_could_be_two_things() {
    let refused = read(log(), "time,temperature\n05:00,80\n").unwrap_err();
    assert!(
        refused.show(UnitSet::Metric).contains("hours and minutes or minutes and seconds"),
        "{refused:?}"
    );
}

#[test]
fn a_name_is_read_with_either_of_its_words() {
    // the American spelling, and the names that earlier tables were written with
    let text = "Analyte;Result (mg/L)\nAluminum;0.01\nBicarbonate;30\n";
    assert_eq!(read(report(), text).unwrap().rows, [["aluminium", "0.01"], ["bicarbonate", "30"]]);
    let text = "Analyte;Result (mg/L)\n\"Aluminium, as Al\";0.01\n\"Hydrogen carbonate (bicarbonate), as HCO3\";30\n";
    assert_eq!(read(report(), text).unwrap().rows, [["aluminium", "0.01"], ["bicarbonate", "30"]]);
}

#[test]
fn a_unit_without_a_letter_is_a_unit() {
    let columns: &'static [Field] = crate::fields!(Input:
        share "share" : Option<crate::engine::quantity::Ratio> =
            crate::engine::sheet::Term::number(&crate::engine::quantity::kinds::RATIO, "Share of it", "x"),
        tolerance "tolerance" : Option<f64> =
            crate::engine::sheet::Term::number(&crate::engine::quantity::kinds::NUMBER, "Accuracy (±)", "u"),
    );
    let read = read(columns, "Share of it (%);Accuracy (±)\n5;2\n").unwrap();
    assert_eq!(read.units[0].map(|unit| unit.symbol), Some("%"));
    assert!(super::read(columns, "Share of it (‰);Accuracy (±)\n5;2\n").is_err());
}
