"""A hundred and thirty natural waters against limits: as they are, and as an RO would leave them.

Analyses of the U.S. Geological Survey (data/grafton_major_ions.csv), the six rows that they have. Each goes through
`chemical-limits` by three sets, and through `ion-passage` at 50 %; what that expects in the product goes through
`chemical-limits` again. No request may fail, and every judgement is made a second time here, from the limits and the trade's
rejections as they are printed. What no water should be is looked at one by one: a water that the low end of the trade's
table does not bring within its limits.
"""

import math
import sys

import carbonate
import natural_waters

ANALYTES = ("calcium", "magnesium", "sodium", "potassium", "chloride", "sulfate")
# as printed, mg/L: ISO 23500-3:2019 by a list of its items, RD62:2001 as USP <1230> reprints it; the monograph from memory
LIMITS = {
    "iso-23500-3-2019": {"calcium": 2, "magnesium": 4, "sodium": 70, "potassium": 8, "sulfate": 100},
    "aami-rd52-2004": {"calcium": 2, "magnesium": 4, "sodium": 70, "potassium": 8, "sulfate": 100},
    "ph-eur-1167": {"calcium": 2, "magnesium": 2, "sodium": 50, "potassium": 2, "chloride": 50, "sulfate": 50},
}
# how many limits each set has, those without one of the six among them
ROWS = {"iso-23500-3-2019": 22, "aami-rd52-2004": 24, "ph-eur-1167": 13}
# the lower low end of two trade tables
REJECTION = {"calcium": 96, "magnesium": 96, "sodium": 92, "potassium": 92, "chloride": 94, "sulfate": 98}
# mean concentration of the feed side at a recovery of one half
MEAN_FACTOR = math.log(2) / 0.5


def report(water):
    return [{"analyte": analyte, "result": f"{value} mg/L"} for analyte, value in water.items()]


def verdict(limits, analyte, value):
    if analyte not in limits:
        return "no-limit"
    return "over-limit" if value > limits[analyte] else "within-limit"


def expectation(limits, analyte, value, expected):
    if analyte not in limits:
        return "no-limit"
    if value <= limits[analyte]:
        return "none-needed"
    return "expected-below" if expected <= limits[analyte] else "expected-above"


def near(ours, theirs):
    return math.isclose(ours, theirs, rel_tol=1e-9)


def judged(name, water, chosen, outputs, said):
    """The answer of chemical-limits, once more."""
    limits = LIMITS[chosen]
    rows = {row["analyte"]["value"]: row for row in outputs["judgements"]["value"]}
    over = 0
    for analyte, value in water.items():
        row, wanted = rows[analyte], verdict(limits, analyte, value)
        over += wanted == "over-limit"
        said(f"{name}: {analyte} by {chosen}", row["verdict"]["value"] == wanted)
        others = {verdict(other, analyte, value) for other in LIMITS.values() if analyte in other}
        differs = analyte in limits and len(others) > 1
        said(f"{name}: {analyte} elsewhere", row["elsewhere"]["value"] == ("otherwise" if differs else "same"))
        limit = row["limit"]["value"]
        said(f"{name}: limit of {analyte}", near(limit, limits[analyte]) if analyte in limits else limit is None)
    said(f"{name}: how many are over", outputs["results-over-limit"]["value"] == over)
    tested = sum(analyte in limits for analyte in water)
    said(f"{name}: how many are open", outputs["limits-not-tested"]["value"] == ROWS[chosen] - tested)
    return over


def main():
    samples = [(name, dict(zip(ANALYTES, water))) for name, water in natural_waters.waters()]
    samples = [(name, {analyte: value for analyte, value in water.items() if value > 0}) for name, water in samples]
    passages = [
        {"sheet": "ion-passage", "inputs": {"feed-report": report(water), "recovery": "50 %", "limit-set": chosen}}
        for _, water in samples
        for chosen in LIMITS
    ]
    products = [
        {analyte: value * (1 - REJECTION[analyte] / 100) * MEAN_FACTOR for analyte, value in water.items()}
        for _, water in samples
    ]
    judgements = [
        {"sheet": "chemical-limits", "inputs": {"product-report": report(water), "limit-set": chosen}}
        for water in [water for _, water in samples] + products
        for chosen in LIMITS
    ]
    answers = carbonate.ask(passages + judgements)
    refused = [answer["errors"] for answer in answers if "errors" in answer]
    for errors in refused:
        print(f"refused: {errors}")
    if refused:
        print(f"{len(answers) - len(refused)} passed, {len(refused)} failed")
        sys.exit(1)

    passed, wrong = 0, []

    def said(what, right):
        nonlocal passed
        passed += bool(right)
        if not right:
            wrong.append(what)

    outputs = iter(answer["outputs"] for answer in answers)
    above = []
    for (name, water), product in zip(samples, products):
        for chosen, limits in LIMITS.items():
            found = next(outputs)
            rows = {row["analyte"]["value"]: row for row in found["contaminants"]["value"]}
            said(f"{name}: mean factor", near(found["mean-factor"]["value"], MEAN_FACTOR))
            for analyte, value in water.items():
                row, limit = rows[analyte], limits.get(analyte)
                wanted = expectation(limits, analyte, value, product[analyte])
                at = f"{name}: {analyte} by {chosen}"
                said(f"{at}, expected", near(row["expected"]["value"], product[analyte]))
                said(f"{at}, expectation", row["expectation"]["value"] == wanted)
                needed = row["needed"]["value"]
                over = limit is not None and value > limit
                said(f"{at}, needed", near(needed, 100 * (1 - limit / value)) if over else needed is None)
                if wanted == "expected-above":
                    above.append((name, analyte, chosen, value, product[analyte], limit))
    over = {"as it is": 0, "as product": 0}
    for kind, waters in (("as it is", [water for _, water in samples]), ("as product", products)):
        for (name, _), water in zip(samples, waters):
            for chosen in LIMITS:
                over[kind] += judged(f"{name} {kind}", water, chosen, next(outputs), said) > 0

    for what in wrong:
        print(f"otherwise here: {what}")
    # the same number of several sets is one line
    lines = {}
    for name, analyte, chosen, value, expected, limit in above:
        lines.setdefault((name, analyte, value, expected, limit), []).append(chosen)
    for (name, analyte, value, expected, limit), sets in lines.items():
        needed = 100 * (1 - limit / (value * MEAN_FACTOR))
        print(
            f"expected above its limit: {name}, {analyte}: {value:g} mg/L of the feed leave {expected:.2f}, limit {limit}"
            f" ({', '.join(sets)}); it takes {needed:.1f} % on the mean of the feed side, the table's low end is"
            f" {REJECTION[analyte]} %: a better membrane, or a softener ahead"
        )
    print(
        f"{len(samples)} natural waters by {len(LIMITS)} sets: {over['as it is']} of {len(samples) * len(LIMITS)} over a limit"
        f" as they are, {over['as product']} as an RO leaves them"
    )
    print(f"{passed} passed, {len(wrong)} failed")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
