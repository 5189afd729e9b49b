"""Trends, control charts and counts a second time, by scipy and statsmodels and no code of ours.

Asks the program through its JSON interface for many made-up series of readings and compares number by number. statsmodels
gives the line with its interval once more (OLS), the weighted mean of the chart (exponential smoothing) and the exact
interval of a Poisson count.
"""

import json
import math
import os
import subprocess
import sys
from datetime import date, timedelta

import numpy
import statsmodels.api as models
from scipy import stats
from statsmodels.stats.rates import confint_poisson
from statsmodels.tsa.holtwinters import SimpleExpSmoothing

FIRST = date(2026, 1, 5)
# weight of the newest reading and centre of the chart
WEIGHT, CENTRE = 0.25, 100.0
# colonies and millilitres
COUNTS = [(count, volume) for count in (0, 1, 2, 3, 7, 12, 25, 60, 150, 300) for volume in (0.5, 1, 100)]


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
        inputs = {"readings": readings, "basis": "normalized", "chart-weight": WEIGHT, "chart-centre": CENTRE}
        requests.append({"sheet": "trend", "inputs": inputs})
    for count, volume in COUNTS:
        inputs = {"fluid": "dialysis-water", "colonies": count, "plated-volume": f"{volume} mL"}
        requests.append({"sheet": "microbial-limits", "inputs": inputs})
    rows = []

    def compare(name, ours, theirs):
        rows.append((name, ours, theirs, abs(ours - theirs) / max(abs(theirs), 1e-6)))

    answers = ask(requests)
    for (days, values), outputs in zip(drawn, answers):
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
            compare(f"{name} of {count}, scipy", outputs[name]["value"], value)

        fit = models.OLS(values, models.add_constant(days)).fit()
        low, high = fit.conf_int(0.05)[1]
        theirs = {"slope": fit.params[1], "slope-low": low, "slope-high": high, "slope-chance": fit.pvalues[1]}
        theirs["scatter"] = math.sqrt(fit.mse_resid)
        for name, value in theirs.items():
            compare(f"{name} of {count}, statsmodels", outputs[name]["value"], value)
        smoothing = SimpleExpSmoothing(values, initialization_method="known", initial_level=CENTRE)
        levels = smoothing.fit(smoothing_level=WEIGHT, optimized=False).level
        for row, value in zip(outputs["chart"]["value"], levels, strict=True):
            compare(f"weighted mean of {count}, statsmodels", row["weighted"]["value"], value)
    for (count, volume), outputs in zip(COUNTS, answers[len(drawn) :], strict=True):
        low, high = confint_poisson(count, volume, method="exact-c")
        compare(f"lower end of {count} colonies, statsmodels", outputs["colony-count-low"]["value"], low)
        compare(f"upper end of {count} colonies, statsmodels", outputs["colony-count-high"]["value"], high)
        bound = confint_poisson(count, volume, method="exact-c", alpha=0.1)[1]
        compare(f"bound of {count} colonies, statsmodels", outputs["colony-count-bound"]["value"], bound)
    wrong = [row for row in rows if not row[3] <= 1e-8]
    for name, ours, theirs, apart in wrong:
        print(f"{name}: {ours} here, {theirs} there, apart by {apart:.2e}")
    worst = max(rows, key=lambda row: row[3])
    print(f"trends and counts against scipy and statsmodels: {len(rows)} numbers, largest difference {worst[3]:.1e} ({worst[0]})")
    print(f"{len(rows) - len(wrong)} passed, {len(wrong)} failed")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
