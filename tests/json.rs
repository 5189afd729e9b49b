//! The JSON interface: the shapes of requests and answers, and what is said of what cannot be answered.

use calc::documents::json;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::process::{Command, Stdio};

/// Of every kind, also refused ones.
const REQUESTS: &str = include_str!("../examples/requests.jsonl");

fn answer(request: Value) -> Value {
    let line = json::answer(&request.to_string());
    assert!(!line.contains('\n'), "{line}");
    match serde_json::from_str(&line) {
        Ok(answer) => answer,
        Err(error) => panic!("{error}: {line}"),
    }
}

/// The answer to one line among the examples.
fn example(id: &str) -> Value {
    let lines = REQUESTS.lines().filter_map(|line| serde_json::from_str::<Value>(line).ok());
    match lines.into_iter().find(|request| request["id"] == id) {
        Some(request) => answer(request),
        None => panic!("no example has the id {id}"),
    }
}

/// What is said of one field.
fn message<'a>(answer: &'a Value, field: &str) -> &'a str {
    let errors = answer["errors"].as_array().map_or(&[][..], Vec::as_slice);
    errors
        .iter()
        .find(|error| error["field"] == field)
        .and_then(|error| error["message"].as_str())
        .unwrap_or("")
}

#[track_caller]
fn assert_near(value: &Value, expected: f64, within: f64) {
    let number = value["value"].as_f64().unwrap_or(f64::NAN);
    assert!((number - expected).abs() <= within, "{value}, expected {expected}");
}

#[test]
fn every_example_is_answered() {
    for line in REQUESTS.lines() {
        let request: Value = serde_json::from_str(line).unwrap();
        let given = answer(request.clone());
        assert_eq!(given["id"], *request.get("id").unwrap_or(&Value::Null), "{line}");
        let is_refused = line.contains("\"refused");
        assert_eq!(given.get("errors").is_some(), is_refused, "{given}");
        for error in given["errors"].as_array().into_iter().flatten() {
            let message = error["message"].as_str().unwrap_or("");
            assert!(message.len() > 20 && !message.contains("{}"), "{error}");
        }
    }
}

/// 28.3 L over 1.5 US gallons (of 231 cubic inches) a minute, by hand: 28.3 / 5.678117676 = 4.98404605449…
#[test]
fn a_number_comes_out_unrounded_with_its_unit() {
    let given = example("contact-time");
    let time = json!({ "value": 4.984046054490402, "unit": "min" });
    assert_eq!(given["sheet"], "carbon-contact-time");
    assert_eq!(
        given["outputs"],
        json!({ "contact-time": time, "final-contact-time": time, "total-contact-time": time })
    );
    let check = &given["checks"][0];
    assert_eq!(check["id"], "contact-time");
    assert_eq!(check["stage"], "carbon");
    assert_eq!(check["state"], "not-met");
    assert_eq!((&check["limit"], &check["unit"]), (&json!(10.0), &json!("min")));
    // 1 - 4.98404605 / 10
    assert!((check["margin"].as_f64().unwrap() + 0.501_595_39).abs() < 1e-8);
    assert!(
        check["reason"]
            .as_str()
            .unwrap()
            .contains("not met. 4.98 min, needs at least 10. Short by 5.02 (50 %)")
    );
    assert!(check["source"].as_str().unwrap().starts_with("25 Texas Administrative Code"));
    assert_eq!(given["cautions"][0]["id"], "test-decides");
}

#[test]
fn each_step_of_the_working_stands_in_one_set_of_units() {
    let given = example("contact-time");
    let step = &given["working"][0];
    assert_eq!(step["name"], "in first");
    assert_eq!(step["formula"], "t_1 = V_1 / Q");
    // 1.5 gal/min = 5.678118 L/min
    assert_eq!(step["with-numbers"], "t_1 = 28.3 / 5.678118 = 4.984046 min");
    assert_eq!((&step["value"], &step["unit"]), (&json!(4.984046054490402), &json!("min")));
}

/// Two tanks of 0.35 ft³ at 0.789 gal/min: 0.35 · 1728 / 231 / 0.789 = 3.3184 min each.
#[test]
fn us_readers_get_their_units_and_a_comma_is_read() {
    let given = example("contact-time-us");
    assert_near(&given["outputs"]["contact-time"], 0.35 * 1728.0 / 231.0 / 0.789, 1e-12);
    assert_near(&given["outputs"]["total-contact-time"], 0.7 * 1728.0 / 231.0 / 0.789, 1e-12);
    assert_eq!(
        given["working"][0]["where"][1],
        json!({ "name": "flow", "symbol": "Q", "value": 0.789, "unit": "gal/min" })
    );
}

/// A number as the record keeps it counts by value and unit, whatever its text says.
#[test]
fn a_kept_number_is_read_without_its_text() {
    let request = |typed: &str| {
        json!({ "sheet": "carbon-contact-time", "inputs": {
            "bed-volume": { "typed": typed, "value": 28.3, "unit": "L" },
            "flow": { "value": 1.5, "unit": "gal/min" },
        } })
    };
    let outputs = |typed: &str| answer(request(typed))["outputs"].clone();
    assert_eq!(outputs("28,3 L"), example("contact-time")["outputs"]);
    assert_eq!(outputs("1,234"), example("contact-time")["outputs"]);
}

#[test]
fn what_does_not_apply_says_what_is_relied_on() {
    let check = &example("contact-time-kept")["checks"][0];
    assert_eq!(check["state"], "does-not-apply");
    // the number is told, and not judged: 28.3 L / (1.5 · 3.785411784 L/min)
    assert!(check["value"].as_f64().is_some_and(|minutes| (minutes - 4.984).abs() < 0.0005));
    assert_eq!(&check["margin"], &Value::Null);
    assert!(check["reason"].as_str().unwrap().contains("tested before every session"));
}

#[test]
fn what_is_missing_names_the_field() {
    let given = example("contact-time-nothing");
    assert_eq!(
        given["outputs"]["contact-time"],
        json!({ "value": null, "missing": "not-known", "field": "bed-volume", "why": "Bed volume of the first carbon (worker) is not entered" })
    );
    let check = &given["checks"][0];
    assert_eq!((&check["state"], &check["field"]), (&json!("not-known"), &json!("bed-volume")));
    let never = &example("inlet-pressure-hoses")["outputs"]["inlet-pressure-flush"];
    assert_eq!((&never["missing"], &never["field"]), (&json!("none-exists"), &Value::Null));
}

/// A clinic on a well, by hand: 2.1 - 0.55 (4.5/10)² - 0.15 · 4.5/3.0 - 0.20 (4.5/3.0)^1.75 = 1.36 bar in flush.
#[test]
fn a_check_of_several_cases_says_which() {
    let given = example("inlet-pressure");
    assert_near(&given["outputs"]["inlet-pressure-running"], 1.70, 0.005);
    assert_near(&given["outputs"]["inlet-pressure-flush"], 1.36, 0.005);
    let checks = given["checks"].as_array().unwrap();
    let flush = checks.iter().find(|check| check["id"] == "inlet-pressure-flush").unwrap();
    assert!(flush["reason"].as_str().unwrap().contains("1.36 bar, needs at least 1. 0.36 spare (36 %)"));
    assert!((flush["margin"].as_f64().unwrap() - 0.36).abs() < 0.005);
    assert_near(&flush["distance"], 0.36, 0.005);
}

/// Ten minutes at 80 °C (176 °F) are 600 equivalent seconds by definition.
#[test]
fn a_table_goes_in_and_out_as_rows() {
    let given = example("heat-dose");
    assert_eq!(given["outputs"]["dose"], json!({ "value": 600.0, "unit": "s" }));
    let row = &given["outputs"]["probes"]["value"][0];
    assert_eq!(row["dose"], json!({ "value": 600.0, "unit": "s" }));
    assert_eq!(given["working"][0]["how"], "procedure");
    assert_eq!(given["working"][0]["formula"], Value::Null);
}

/// An infirmary on a cold reservoir, by hand with the exponential form: 0.86 L/min at 8.0 °C become
/// 0.86 · 0.4551/0.5420 · 0.85 = 0.614 L/min in February, and 2.42 L/min of feed at 50.4 % recovery in August.
#[test]
fn a_plan_is_computed_from_its_fields_or_from_a_record() {
    let given = example("plan");
    assert_near(&given["outputs"]["capacity-coldest"], 0.614, 0.0005);
    assert_near(&given["outputs"]["feed-warmest"], 2.42, 0.005);
    assert_near(&given["outputs"]["recovery-warmest"], 50.4, 0.05);
    let worst = &given["checks"][0];
    assert_eq!((&worst["id"], &worst["state"]), (&json!("capacity-coldest"), &json!("not-met")));
    let of_record = example("plan-record");
    assert_eq!(of_record["outputs"], given["outputs"]);
    assert_eq!(of_record["checks"], given["checks"]);
}

#[test]
fn all_problems_are_told_at_once_with_their_remedy() {
    let given = example("refused-unreadable");
    for (field, told) in [
        ("bed-volume", "write 1.234 or 1234"),
        ("second-bed-volume", "takes L, mL, m³, gal or ft³"),
        ("flow", "such as L/min or gpm"),
        ("rule", "contact-time or test-before-session"),
    ] {
        assert!(message(&given, field).contains(told), "{field}: {given}");
    }
    assert!(message(&example("refused-impossible"), "bed-volume").contains("0.01 L to 5000 L"));
    assert!(message(&example("refused-field"), "bed_volume").contains("nearest: bed-volume"));
    assert!(message(&example("refused-sheet"), "sheet").contains("nearest: carbon-contact-time"));
}

#[test]
fn a_problem_in_a_table_has_its_row_and_column() {
    let given = example("refused-cells");
    let errors = given["errors"].as_array().unwrap();
    let of = |row: u64, column: Value| {
        errors.iter().any(|error| {
            error["field"] == "hoses"
                && error["row"] == row
                && *error.get("column").unwrap_or(&Value::Null) == column
        })
    };
    assert!(of(2, json!("bore")) && of(2, json!("lenght")) && of(3, Value::Null), "{given}");
    assert!(message(&given, "tap-temperature").contains("give it as text with its unit"));
}

#[test]
fn a_row_that_cannot_be_read_hides_no_other_result() {
    let report = json!([
        { "analyte": "calcium", "result": "ND" },
        { "analyte": "lead", "result": "6 µg/L" },
        { "analyte": "aluminium", "result": "9 µg/L" },
        { "analyte": "sodium", "result": "3 mg/L" },
        { "analyte": "sodium", "result": "4 mg/L" },
    ]);
    let mut inputs = json!({ "limit-set": "iso-23500-3-2024", "product-report": report });
    let twice = answer(json!({ "sheet": "chemical-limits", "inputs": inputs }));
    // the sheet's own problem names the row as it was given
    assert_eq!(twice["errors"][0]["row"], 5, "{twice}");
    inputs["product-report"].as_array_mut().unwrap().pop();
    let given = answer(json!({ "sheet": "chemical-limits", "inputs": inputs }));
    let left_out = given["left-out"].as_array().unwrap();
    assert_eq!(left_out.len(), 1, "{given}");
    assert_eq!((&left_out[0]["row"], &left_out[0]["column"]), (&json!(1), &json!("result")));
    assert!(left_out[0]["message"].as_str().unwrap().contains("ND"));
    let state = |of: &str| {
        let checks = given["checks"].as_array().unwrap();
        checks.iter().find(|check| check.to_string().contains(of)).map(|check| check["state"].clone())
    };
    assert_eq!(state("lead"), Some(json!("not-met")), "{given}");
    assert_eq!(state("aluminium"), Some(json!("met")), "{given}");
}

#[test]
fn an_empty_cell_that_is_needed_is_a_problem() {
    let hoses = json!([{ "bore": "12.7 mm", "length": null }]);
    let given = answer(json!({ "sheet": "inlet-pressure", "inputs": { "hoses": hoses } }));
    let error = &given["errors"][0];
    assert_eq!((&error["row"], &error["column"]), (&json!(1), &json!("length")), "{given}");
}

#[test]
fn the_last_of_two_equal_members_counts() {
    let twice = r#"{"sheet": "carbon-contact-time", "inputs": {"flow": "x", "bed-volume": "28.3 L", "flow": "1.5 gpm"}}"#;
    let given: Value = serde_json::from_str(&json::answer(twice)).unwrap();
    assert_eq!(given["outputs"], example("contact-time")["outputs"]);
}

#[test]
fn null_is_the_same_as_absent() {
    let request = json!({ "sheet": "carbon-contact-time", "inputs": null, "record": null, "units": null });
    assert_eq!(answer(request)["outputs"], example("contact-time-nothing")["outputs"]);
}

#[test]
fn what_is_no_json_is_answered_too() {
    for line in ["", "nix", "{\"list\": true", "{\"id\": 1e, \"list\": true}", "\u{0}"] {
        let given = json::answer_line(line);
        assert!(!given.was_json, "{line}");
        assert!(
            given.text.starts_with(r#"{"id":null,"errors":[{"field":null,"message":"this line is no JSON"#)
        );
    }
    assert!(!json::answer_line(b"{\"id\": \"\xff\", \"list\": true}").was_json);
    for line in ["5", "[]", "null", "\"list\"", "{}", r#"{"list": 1}"#, r#"{"sheet": 1}"#] {
        let given = json::answer_line(line);
        assert!(given.was_json && given.text.contains("errors"), "{line}");
    }
    assert!(json::answer("\u{feff}{\"list\": true}\r").contains("sheets"));
}

#[test]
fn every_sheet_is_listed_and_described() {
    let list = answer(json!({ "list": true }));
    let sheets = list["sheets"].as_array().unwrap();
    assert_eq!(sheets.len(), calc::program::catalogue::SHEETS.len());
    for sheet in sheets {
        let told = answer(json!({ "describe": sheet["id"] }));
        assert_eq!(told["sheet"], sheet["id"]);
        let ids = |fields: &Value| -> Value {
            fields.as_array().unwrap().iter().map(|field| field["id"].clone()).collect()
        };
        assert_eq!(ids(&told["inputs"]), sheet["inputs"]);
        assert_eq!(ids(&told["outputs"]), sheet["outputs"]);
    }
    let told = answer(json!({ "describe": "carbon-contact-time" }));
    let flow = told["inputs"].as_array().unwrap().iter().find(|field| field["id"] == "flow").unwrap();
    assert_eq!(flow["unit"], json!({ "si": "L/min", "us": "gal/min" }));
    assert_eq!(flow["needed"], true);
}

/// The process itself, as it is called from the root: it ends with 0 when every line was JSON, else with 1.
#[test]
fn the_process_answers_line_by_line() {
    let run = |requests: &str| {
        let mut process = Command::new(env!("CARGO"))
            .args(["run", "--quiet", "--example", "evaluate"])
            .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        process.stdin.take().unwrap().write_all(requests.as_bytes()).unwrap();
        let output = process.wait_with_output().unwrap();
        (output.status.code(), String::from_utf8(output.stdout).unwrap())
    };
    let (code, answers) = run(REQUESTS);
    assert_eq!(code, Some(0));
    assert!(answers.lines().eq(REQUESTS.lines().map(json::answer)));
    let (code, answers) = run("nix\n{\"list\": true}");
    assert_eq!(code, Some(1));
    assert_eq!(answers.lines().count(), 2);
}

/// Another program asks, waits for the answer, and asks again with what it was told.
#[test]
fn two_programs_can_talk() {
    let mut process = Command::new(env!("CARGO"))
        .args(["run", "--quiet", "--example", "evaluate"])
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut asks = process.stdin.take().unwrap();
    let mut answers = BufReader::new(process.stdout.take().unwrap()).lines();
    for id in 1..=3 {
        writeln!(asks, "{{\"id\": {id}, \"list\": true}}").unwrap();
        let given = answers.next().unwrap().unwrap();
        assert!(given.starts_with(&format!("{{\"id\":{id},\"sheets\":")), "{given}");
    }
    drop(asks);
    assert!(process.wait().unwrap().success());
}

#[test]
fn an_id_comes_back_as_it_came() {
    for id in ["123456789012345678901234567890", "1.10", "1e400", "-0.0", "\"\\u00e9 {id}\"", "[1, 2]"] {
        for rest in ["\"list\": true", "\"list\": false"] {
            let line = json::answer(&format!("{{\"id\": {id}, {rest}}}"));
            assert!(line.starts_with(&format!("{{\"id\":{id},\"")), "{line}");
        }
    }
}

#[test]
fn a_number_beyond_range_is_a_fault_of_its_field() {
    let line =
        r#"{"sheet": "silt-density-index", "inputs": {"first-sample-time": "20 s", "highest-index": 1e400}}"#;
    let given = json::answer_line(line);
    assert!(given.was_json);
    let given: Value = serde_json::from_str(&given.text).unwrap();
    let field = given["errors"]
        .as_array()
        .unwrap()
        .iter()
        .find(|error| error["message"].as_str().unwrap().contains("too large"));
    assert_eq!(field.map(|error| &error["field"]), Some(&json!("highest-index")), "{given}");
    let cell = r#"{"sheet": "heat-dose", "inputs": {"log": [{"time": "0 s", "temperature": 1e999}]}}"#;
    let given: Value = serde_json::from_str(&json::answer(cell)).unwrap();
    assert_eq!(
        (&given["errors"][0]["field"], &given["errors"][0]["row"]),
        (&json!("log"), &json!(1)),
        "{given}"
    );
}

#[test]
fn a_message_keeps_its_literal_json() {
    assert!(message(&example("refused-sheet"), "sheet").ends_with("{\"list\": true} names them all"));
    assert!(message(&example("refused-field"), "bed_volume").ends_with("{\"describe\": …} names them all"));
}

#[test]
fn a_member_of_the_wrong_type_is_an_error() {
    for (member, value) in [
        ("mends", json!("yes")),
        ("places", json!(1)),
        ("units", json!(2)),
        ("inputs", json!([])),
        ("record", json!([])),
    ] {
        let mut request = json!({ "sheet": "carbon-contact-time" });
        request[member] = value;
        assert!(!message(&answer(request), member).is_empty(), "{member}");
    }
    let kept =
        |volume: Value| answer(json!({ "sheet": "carbon-contact-time", "inputs": { "bed-volume": volume } }));
    for volume in [
        json!({ "typed": 28.3 }),
        json!({ "vlaue": 28.3, "unit": "L" }),
        json!({ "value": "28.3", "unit": "L" }),
        json!(true),
        json!([]),
    ] {
        assert!(!message(&kept(volume.clone()), "bed-volume").is_empty(), "{volume}");
    }
}

#[test]
fn a_share_may_be_text_or_a_fraction() {
    let recovery =
        |share: Value| answer(json!({ "sheet": "scale-tendency", "inputs": { "recovery": share } }));
    for share in [json!("0.02"), json!(0.02), json!("0,02")] {
        let given = recovery(share);
        let warning =
            given["warnings"].as_array().unwrap().iter().find(|one| one["field"] == "recovery").unwrap();
        assert!(
            warning["message"].as_str().unwrap().ends_with("was read as a fraction: 2.00 %"),
            "{warning}"
        );
    }
    let given = recovery(json!("2 %"));
    assert!(
        given["warnings"]
            .as_array()
            .unwrap()
            .iter()
            .all(|one| !one["message"].as_str().unwrap().contains("fraction"))
    );
    for share in [json!("50"), json!(1), json!(-0.5)] {
        assert!(message(&recovery(share), "recovery").contains('%'));
    }
}

#[test]
fn a_moment_is_read_beside_the_present_one() {
    let of = |tested: &str| {
        answer(
            json!({ "sheet": "chlorine-test", "inputs": { "carbons-in-series": "two", "now": "2027-03-14T07:30-05:00", "tested-at": tested } }),
        )
    };
    // from 02:10 to 07:30, and from 22:10 of the day before
    for (tested, hours, in_full) in [
        ("02:10", 5.0 + 20.0 / 60.0, "14 Mar 2027, 02:10"),
        ("14 Mar 02:10", 5.0 + 20.0 / 60.0, "14 Mar 2027, 02:10"),
        ("10:10 pm", 9.0 + 20.0 / 60.0, "13 Mar 2027, 22:10"),
    ] {
        let given = of(tested);
        assert_near(&given["outputs"]["test-age"], hours, 1e-9);
        let warnings = given["warnings"].as_array().unwrap();
        let said = warnings.iter().find(|warning| warning["id"] == "moment-in-full").unwrap();
        assert_eq!(
            (&said["field"], said["message"].as_str()),
            (&json!("tested-at"), Some(format!("“{tested}” was read as {in_full}").as_str()))
        );
    }
    assert!(message(&of("14/03 02:10"), "tested-at").contains("write the clock, such as 02:10"));
    let without = answer(json!({ "sheet": "chlorine-test", "inputs": { "tested-at": "02:10" } }));
    assert!(message(&without, "tested-at").contains("the offset from UTC"), "{without}");
}

/// Two places: 3 and 5 bar with the tap closed.
fn of_two_places(more: Value) -> Value {
    let mut request = json!({ "sheet": "tap-curve", "record": {
        "format": "tapside-record", "version": 1,
        "ro": { "ro-name": "RO 2", "prodct-flow": "1 L/min" },
        "places": [
            { "place-name": "Ward 6", "shut-pressure": { "typed": "3 bar", "value": 3.0, "unit": "bar" }, "open-pressure": "2 bar", "open-flow": "10 L/min", "running-flow": "10 L/min" },
            { "place-name": "Ward 7", "shut-pressure": "5 bar", "open-pressure": "4 bar", "open-flow": "10 L/min", "running-flow": "10 L/min", "wether": "cold" },
        ],
    } });
    for (member, value) in more.as_object().into_iter().flatten() {
        request[member] = value.clone();
    }
    answer(request)
}

#[test]
fn a_place_is_chosen_or_all_are_asked() {
    let pressure = |given: &Value| given["outputs"]["pressure-at-flow"]["value"].as_f64().unwrap();
    assert!((pressure(&of_two_places(json!({}))) - 2.0).abs() < 1e-9);
    for place in [json!("Ward 7"), json!(2)] {
        assert!((pressure(&of_two_places(json!({ "place": place }))) - 4.0).abs() < 1e-9);
    }
    let all = of_two_places(json!({ "places": true }));
    let all = all["places"].as_array().unwrap();
    assert_eq!(
        all.iter().map(|one| one["place"].as_str().unwrap()).collect::<Vec<_>>(),
        ["Ward 6", "Ward 7"]
    );
    assert!((pressure(&all[1]) - 4.0).abs() < 1e-9);
    for (place, told) in [
        (json!("Ward 9"), "nearest: Ward 6"),
        (json!(0), "of which there are 2"),
        (json!(3), "of which there are 2"),
        (json!(true), "its name or by its number"),
    ] {
        let given = of_two_places(json!({ "place": place }));
        assert!(message(&given, "place").contains(told), "{given}");
    }
    assert!(message(&of_two_places(json!({ "place": 1, "places": true })), "place").contains("not both"));
    assert!(message(&answer(json!({ "sheet": "plan", "place": 1 })), "place").contains("give the record"));
}

#[test]
fn an_unknown_member_of_a_record_is_a_warning() {
    let given = of_two_places(json!({}));
    let told: Vec<&str> = given["warnings"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|one| one["field"] == "record")
        .map(|one| one["message"].as_str().unwrap())
        .collect();
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(
        told[0].contains("“ro” has a member “prodct-flow”") && told[0].contains("nearest: product-flow"),
        "{told:?}"
    );
    assert!(told[1].contains("“places” has a member “wether”"), "{told:?}");
}

#[test]
fn a_month_stands_once() {
    for (sheet, column) in [
        ("mains-temperature", "measured-temperature"),
        ("product-flow-year", "temperature"),
        ("plan", "temperature"),
    ] {
        let row = |month: &str| json!({ "month": month, column: "8 °C" });
        let of =
            |months: [&str; 3]| answer(json!({ "sheet": sheet, "inputs": { "months": months.map(row) } }));
        let given = of(["jan", "feb", "jan"]);
        let error =
            given["errors"].as_array().unwrap().iter().find(|error| error["field"] == "months").unwrap();
        assert_eq!((&error["row"], &error["column"]), (&json!(3), &json!("month")), "{sheet}");
        assert_eq!(error["message"], "January is in row 1 and in row 3: keep one of them");
        assert!(message(&of(["jan", "feb", "mar"]), "months").is_empty(), "{sheet}");
    }
}

#[test]
fn what_no_value_could_change_is_decided() {
    // 300 µS/cm of product from 500 µS/cm of feed: 60 % pass, and whatever passed at start-up, that is far more
    let given = answer(json!({ "sheet": "rejection", "inputs": {
        "feed-conductivity": "500 µS/cm", "product-conductivity": "300 µS/cm",
    } }));
    let check =
        given["checks"].as_array().unwrap().iter().find(|check| check["id"] == "salt-passage-ratio").unwrap();
    assert_eq!(check["state"], "not-met", "{check}");
    assert_eq!(check["decided"], check["field"]);
    assert!(check["reason"].as_str().unwrap().contains(": not met, whatever “"), "{check}");
}

/// A sheet as of a moment, each field with its origin; and what is true then.
#[test]
fn a_record_is_asked_as_of_a_moment() {
    let read = |id: &str, day: u32, feed: &str| {
        json!({ "id": id, "kind": "reading", "at": format!("2027-03-{day:02}T07:00+01:00"), "place": "ward",
        "fields": { "feed-conductivity": feed, "product-conductivity": "4 µS/cm" } })
    };
    let record = json!({
        "format": "tapside-record", "version": 2, "places": [{ "id": "ward", "place-name": "Ward 6" }],
        "events": [
            read("r1", 3, "80 µS/cm"), read("r2", 5, "90 µS/cm"),
            { "id": "d", "kind": "chemical-disinfection", "at": "2027-03-04T18:00+01:00" },
        ],
    });
    let asked = |more: Value| {
        let mut request = json!({ "record": record });
        request.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        json::answer_request(&request)
    };
    let rejection = asked(json!({ "sheet": "rejection", "place": "ward", "at": "2027-03-04T07:00+01:00" }));
    assert_eq!(
        rejection["from"]["feed-conductivity"],
        json!({ "from": "reading", "id": "r1", "at": "2027-03-03T07:00+01:00", "place": "ward" }),
        "{rejection}"
    );
    let later = asked(json!({ "sheet": "rejection", "place": "Ward 6" }));
    assert_eq!(later["from"]["feed-conductivity"]["id"], "r2");
    // as of which moment is said; without one all that stands in the record counts
    assert_eq!((&rejection["at"], &later["at"]), (&json!("2027-03-04T07:00+01:00"), &Value::Null));
    let now = |moment: &str| asked(json!({ "now": moment }));
    assert_eq!(now("2027-03-04T07:00+01:00")["locks"], json!([]));
    let locked = now("2027-03-06T07:00+01:00");
    assert_eq!(locked["locks"][0]["id"], "disinfectant-inside");
    assert_eq!(locked["locks"][0]["event"], "d");
    assert_eq!(locked["latest"]["reading"]["id"], "r2");
    assert_eq!(now("yesterday")["errors"][0]["field"], "now");
    assert_eq!(asked(json!({ "sheet": "rejection", "at": "2027-03-04" }))["errors"][0]["field"], "at");
}

/// A trend of a number that the record holds, each value with its event, and with the trigger that is typed beside it.
#[test]
fn a_trend_takes_its_series_from_a_record() {
    let reading = |day: u32| {
        json!({ "id": format!("r{day}"), "kind": "reading", "at": format!("2027-03-{day:02}T07:00+01:00"), "place": "ward",
            "fields": { "hardness-after-softener": format!("{} mg/L", day) } })
    };
    let events: Vec<Value> = (1..=9).map(reading).collect();
    let record =
        json!({ "format": "tapside-record", "version": 2, "places": [{ "id": "ward" }], "events": events });
    let asked = |inputs: Value| {
        json::answer_request(
            &json!({ "record": record, "sheet": "trend", "at": "2027-03-08T12:00+01:00", "inputs": inputs }),
        )
    };
    let answer = asked(json!({ "series": "hardness-after-softener", "trigger": 10 }));
    // 1 mg/L more each day: of eight readings the line meets 10 two days after the last
    assert_eq!(
        answer["outputs"]["slope"]["value"].as_f64().map(|slope| (slope * 1e6).round()),
        Some(1e6),
        "{answer}"
    );
    assert_eq!(answer["outputs"]["trigger-date"]["value"], "2027-03-10", "{answer}");
    let ids: Vec<String> = (1..=8).map(|day| format!("r{day}")).collect();
    assert_eq!(answer["from"]["readings"], json!({ "from": "reading", "ids": ids }));
    assert_eq!(answer["from"]["unit-of-readings"]["from"], "series");
    // what the record fills is not typed over in silence
    let both = asked(
        json!({ "series": "hardness-after-softener", "readings": [{ "date": "2027-03-01", "value": 5 }] }),
    );
    assert_eq!(both["errors"][0]["field"], "readings", "{both}");
    let unknown = asked(json!({ "series": "weather", "trigger": 10 }));
    assert_eq!(unknown["errors"][0]["field"], "series", "{unknown}");
}
