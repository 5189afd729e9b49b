"""A hundred and thirty natural waters through the sheets of scale and of contaminants, with PHREEQC beside them.

Analyses of the U.S. Geological Survey (data/grafton_major_ions.csv). They hold neither alkalinity nor pH: alkalinity is
taken as what balances the charges, the pH as 7.0, the water as 10 °C. One sample balances to less than nothing, and is
asked with none. Every water must get an answer; calcite and pH of feed and reject must be PHREEQC's.
"""

import csv
import math
import sys
from pathlib import Path

import carbonate

DATA = Path(__file__).resolve().parent / "data" / "grafton_major_ions.csv"
# mg to milliequivalents
EQUIVALENTS = {"Ca": 2 / 40.078, "Mg": 2 / 24.305, "Na": 1 / 22.990, "K": 1 / 39.098, "Cl": -1 / 35.45, "SO4": -2 / 96.056}
# the limits of ISO 23500-3:2019 among them, mg/L
LIMITS = {"calcium": 2.0, "magnesium": 4.0, "sodium": 70.0, "potassium": 8.0, "sulfate": 100.0}
PH, CELSIUS, RECOVERIES = 7.0, 10, (0.5, 0.75)


def waters():
    with DATA.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(line for line in file if not line.startswith("#")):
            ions = {ion: float(row[ion]) for ion in EQUIVALENTS}
            alkalinity = 50.043 * sum(ions[ion] * per for ion, per in EQUIVALENTS.items())
            name = f"{row['site_type'].lower()} {row['site']} of {row['date']}"
            yield name, (*ions.values(), max(alkalinity, 0.0), 0, 0, PH, CELSIUS)


def main():
    samples = list(waters())
    requests = [carbonate.request(water, recovery) for _, water in samples for recovery in RECOVERIES]
    for _, water in samples:
        report = [{"analyte": analyte, "result": f"{value} mg/L"} for analyte, value in zip(carbonate.NAMES, water) if value]
        requests.append({"sheet": "ion-passage", "inputs": {"feed-report": report, "recovery": "50 %"}})
    answers = carbonate.ask(requests)
    refused = [answer["errors"] for answer in answers if "errors" in answer]
    for errors in refused:
        print(f"refused: {errors}")
    if refused:
        print(f"{len(answers) - len(refused)} passed, {len(refused)} failed")
        sys.exit(1)

    scale, passage = iter(answers), answers[len(samples) * len(RECOVERIES) :]
    rows, scaling = [], []
    for name, water in samples:
        compared = water[6] > 0
        feed = carbonate.punch(carbonate.solution(water, 1, PH)) if compared else None
        if not compared:
            print(f"answered and not compared, since the charges leave no alkalinity: {name}")
        for recovery in RECOVERIES:
            outputs = next(scale)["outputs"]
            if not compared:
                continue
            theirs = carbonate.reject(water, 1 / (1 - recovery), feed["co2"])
            at = f"{name} at {100 * recovery:.0f} %"
            rows.append(("calcite", name, outputs["feed-calcite-index"]["value"], feed["calcite"]))
            rows.append(("calcite", at, outputs["reject-calcite-index"]["value"], theirs["calcite"]))
            rows.append(("pH", at, outputs["reject-ph"]["value"], theirs["pH"]))
            if theirs["calcite"] > 0:
                scaling.append((theirs["calcite"], at))
    for (_, water), answer in zip(samples, passage):
        found = {row["analyte"]["value"]: row for row in answer["outputs"]["contaminants"]["value"]}
        for analyte, value in zip(carbonate.NAMES, water):
            if value > LIMITS.get(analyte, math.inf):
                rows.append(("needed", analyte, found[analyte]["needed"]["value"], 100 * (1 - LIMITS[analyte] / value)))

    wrong = 0
    for what, allowed in (("calcite", 0.01), ("pH", 0.01), ("needed", 1e-6)):
        of = [row for row in rows if row[0] == what]
        worst = max(of, key=lambda row: abs(row[2] - row[3]))
        print(f"natural waters, {what}: {len(of)} numbers, largest difference {abs(worst[2] - worst[3]):.2g} ({worst[1]}), allowed {allowed}")
        wrong += sum(not abs(row[2] - row[3]) <= allowed for row in of)
    print(f"calcium carbonate expected in {len(scaling)} of {len(samples) * len(RECOVERIES)} rejects, most at {max(scaling)}")
    print(f"{len(samples)} waters")
    print(f"{len(rows) - wrong} passed, {wrong} failed")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
