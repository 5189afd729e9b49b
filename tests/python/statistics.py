"""Trends and their chances a second time, by scipy and no code of ours.

Asks the program through its JSON interface for many made-up series of readings and compares number by number.
"""

import json
import os
import subprocess
import sys
from datetime import date, timedelta

import numpy
from scipy import stats

FIRST = date(2026, 1, 5)


def series():
    draw = numpy.random.default_rng(20260105)
    for count in (5, 6, 9, 10, 11, 14, 30, 120):
        for slope in (0.0, -0.05, 0.2):
            days = numpy.sort(draw.choice(4 * count, count, replace=False)).astype(float)
            days -= days[0]
            digits = 0 if count == 14 else 3
            yield days, numpy.round(100 + slope * days + draw.normal(0, 1, count), digits)


def ask(requests):
    text = "".join(json.dumps(request) + "\n" for request in requests)
    done = subprocess.run([os.environ["TAPSIDE_EVALUATE"]], input=text, capture_output=True, text=True, check=True)
    return [json.loads(line)["outputs"] for line in done.stdout.splitlines()]


def main():
    drawn = list(series())
    requests = []
    for days, values in drawn:
        readings = [
            {"date": str(FIRST + timedelta(days=int(day))), "value": float(value)} for day, value in zip(days, values)
        ]
        requests.append({"sheet": "trend", "inputs": {"readings": readings, "basis": "normalized"}})
    rows = []
    for (days, values), outputs in zip(drawn, ask(requests)):
        count = len(days)
        line = stats.linregress(days, values)
        half = stats.t.ppf(0.975, count - 2) * line.stderr
        theirs = {
            "slope": line.slope,
            "slope-low": line.slope - half,
            "slope-high": line.slope + half,
            "slope-chance": line.pvalue,
            "sen-slope": stats.theilslopes(values, days).slope,
        }
        ties = len(set(values)) < count
        if count <= 10 and not ties:
            theirs["kendall-chance"] = stats.kendalltau(days, values, method="exact").pvalue
        for name, value in theirs.items():
            ours = outputs[name]["value"]
            rows.append((f"{name} of {count}", ours, value, abs(ours - value) / max(abs(value), 1e-6)))
    wrong = [row for row in rows if not row[3] <= 1e-8]
    for name, ours, theirs, apart in wrong:
        print(f"{name}: {ours} here, {theirs} there, apart by {apart:.2e}")
    worst = max(rows, key=lambda row: row[3])
    print(f"trends against scipy: {len(rows)} numbers, largest difference {worst[3]:.1e} ({worst[0]})")
    print(f"{len(rows) - len(wrong)} passed, {len(wrong)} failed")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
