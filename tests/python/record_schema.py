"""The JSON Schema of the record, read by a general validator: the examples fit it, and what is no record does not."""

import copy
import json
import pathlib

from jsonschema import Draft202012Validator

EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"
SCHEMA = json.loads((EXAMPLES / "record.schema.json").read_text(encoding="utf-8"))


def spoilt(record, spoil):
    """A copy of the record with one thing wrong."""
    other = copy.deepcopy(record)
    spoil(other)
    return other


# One mistake each, in words, and how it is made.
MISTAKES = {
    "another format": lambda record: record.update(format="another"),
    "a later version": lambda record: record.update(version=3),
    "no version": lambda record: record.pop("version"),
    "places that are no list": lambda record: record.update(places={}),
    "a bare number": lambda record: record["ro"].update({"least-inlet-pressure": 1.5}),
    "a unit of another kind": lambda record: record["ro"]["least-inlet-pressure"].update(unit="L/min"),
    "a value that is text": lambda record: record["ro"]["least-inlet-pressure"].update(value="1.5"),
    "no text of what was typed": lambda record: record["ro"]["least-inlet-pressure"].pop("typed"),
    "a choice that there is not": lambda record: record["places"][0].update(disinfectant="bleach"),
    "a name without end": lambda record: record["ro"].update({"ro-name": "x" * 201}),
    "a bare number in a reading": lambda record: record["events"][0]["fields"].update({"product-flow": 0.86}),
    "an event without its moment": lambda record: record["events"][0].pop("at"),
    "a moment without its form": lambda record: record["events"][0].update(at="12/11/2026"),
    "an event without an id": lambda record: record["events"][0].pop("id"),
    "a kind of event that there is not": lambda record: record["events"][0].update(kind="painted"),
    "a field of another kind of event": lambda record: record["events"][0].update(
        kind="limits-chosen", fields={"limit-set": "none-there-is"}
    ),
    "a choice that names no reading": lambda record: next(
        event for event in record["events"] if event["kind"] == "reference-chosen"
    ).pop("of"),
    "a place without an id": lambda record: record["places"][0].pop("id"),
    "a wrong unit in a table": lambda record: record["places"][0].update(
        hoses=[{"bore": {"typed": "12.7 bar", "value": 12.7, "unit": "bar"}}]
    ),
}


def main():
    Draft202012Validator.check_schema(SCHEMA)
    validator = Draft202012Validator(SCHEMA)
    records = [file for file in sorted(EXAMPLES.glob("*.json")) if file.name != "record.schema.json"]
    assert records, "no example records"
    for file in records:
        record = json.loads(file.read_text(encoding="utf-8"))
        errors = [f"{file.name}: {error.json_path}: {error.message}" for error in validator.iter_errors(record)]
        assert not errors, "\n".join(errors)
        for mistake, spoil in MISTAKES.items():
            assert not validator.is_valid(spoilt(record, spoil)), f"{file.name}: {mistake} fits the schema"
    print(f"record schema: {len(records)} records fit, {len(MISTAKES)} mistakes each do not")


if __name__ == "__main__":
    main()
