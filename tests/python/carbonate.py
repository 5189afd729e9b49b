"""Scale on the membrane a second time, with PHREEQC 3 (phreeqpython) and no code of ours.

Natural waters, the feed of the invented rooms, softened and saline ones: each as a feed and at four recoveries. PHREEQC
gets the feed's analysis; its reject has every ion times the concentration factor, and as much CO2(aq) as the feed, which
is found by moving the pH. Compared are pH, saturation index of calcite, gypsum, ionic strength, and the recovery at which
calcite reaches saturation.
"""

import json
import math
import os
import subprocess
import sys

from phreeqpython import PhreeqPython

NAMES = {
    "calcium": "Ca {}",
    "magnesium": "Mg {}",
    "sodium": "Na {}",
    "potassium": "K {}",
    "chloride": "Cl {}",
    "sulfate": "S(6) {} as SO4",
    "alkalinity": "Alkalinity {} as CaCO3",
    "nitrate-no3": "N(5) {} as NO3",
    "silica": "Si {} as SiO2",
}

# mg/L in the order of NAMES, pH, Celsius
WATERS = {
    "soft surface": (8, 1.5, 6, 1, 9, 6, 22, 0, 5, 7.8, 8),
    "moderately hard": (45, 9, 20, 2, 30, 40, 115, 0, 8, 7.7, 12),
    "hard groundwater": (110, 22, 25, 3, 45, 60, 290, 0, 18, 7.3, 11),
    "very hard, sulfate": (160, 40, 60, 5, 80, 330, 250, 0, 25, 7.4, 14),
    "high silica": (18, 8, 35, 5, 20, 15, 110, 0, 75, 7.9, 16),
    "behind a softener": (0.4, 0.1, 194, 3, 45, 60, 290, 0, 18, 7.3, 11),
    "cold reservoir": (6, 1.2, 7, 0.6, 10, 8, 14, 1.5, 4, 8.4, 8),
    "cold reservoir in summer": (6, 1.2, 7, 0.6, 10, 8, 14, 1.5, 4, 8.4, 17.5),
    "desert city": (82, 25, 95, 6, 110, 190, 176, 9, 32, 7.9, 32.78),
    "marsh well": (92, 19, 24, 3, 38, 42, 225, 42.1, 14, 7.3, 12),
    "marsh well in summer": (92, 19, 24, 3, 38, 42, 225, 42.1, 14, 7.3, 22),
    "acid, soft": (3, 0.8, 4, 0.5, 6, 5, 6, 2, 6, 6.2, 5),
    "soda water": (5, 2, 210, 4, 60, 40, 400, 1, 30, 8.6, 20),
    "gypsum spring": (300, 45, 15, 3, 12, 750, 210, 5, 12, 7.2, 10),
    "brackish": (120, 60, 450, 15, 700, 300, 250, 3, 20, 7.6, 18),
    "dolomite": (75, 38, 6, 1, 10, 25, 310, 20, 9, 7.4, 10),
}
RECOVERIES = (0.3, 0.5, 0.65, 0.75)
# units of the last place that matters: pH, index, share of gypsum, ionic strength
ALLOWED = {"pH": 0.01, "calcite": 0.01, "gypsum": 0.02, "ionic strength": 0.01, "highest recovery": 0.3}

phreeqc = PhreeqPython(database="phreeqc.dat").ip


def punch(text):
    phreeqc.run_string(
        text
        + "SELECTED_OUTPUT\n -reset false\nUSER_PUNCH\n -headings ph si g co2 mu\n"
        + ' 10 PUNCH -LA("H+"), SI("Calcite"), SR("Gypsum"), MOL("CO2"), MU\nEND\n'
    )
    return dict(zip(("pH", "calcite", "gypsum", "co2", "ionic strength"), phreeqc.get_selected_output_array()[-1]))


def solution(water, factor, ph):
    rows = [line.format(value * factor) for line, value in zip(NAMES.values(), water) if value]
    return f"SOLUTION 1\n temp {water[-1]}\n pH {ph}\n units mg/L\n " + "\n ".join(rows) + "\n"


def reject(water, factor, co2):
    """The concentrated water whose CO2(aq) is that of the feed: the higher the pH, the less."""
    low, high = water[-2], water[-2] + 1.5 * math.log10(factor) + 0.2
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if punch(solution(water, factor, middle))["co2"] > co2 else (low, middle)
    return punch(solution(water, factor, (low + high) / 2))


def highest(water, feed):
    """The recovery at which the reject's calcite index is nothing, in per cent."""
    above = lambda recovery: reject(water, 1 / (1 - recovery), feed["co2"])["calcite"] > 0
    if feed["calcite"] >= 0 or not above(0.9):
        return None
    low, high = 0.0, 0.9
    for _ in range(16):
        middle = (low + high) / 2
        low, high = (low, middle) if above(middle) else (middle, high)
    return 50 * (low + high)


def ask(requests):
    text = "".join(json.dumps(request) + "\n" for request in requests)
    done = subprocess.run(
        [os.environ["TAPSIDE_EVALUATE"]], input=text, capture_output=True, text=True, encoding="utf-8", check=True
    )
    return [json.loads(line) for line in done.stdout.splitlines()]


def request(water, recovery):
    report = [{"analyte": name, "result": f"{value} mg/L"} for name, value in zip(NAMES, water) if value]
    temperature = f"{water[-1]} °C"
    inputs = {"feed-report": report, "feed-ph": water[-2], "tap-temperature": temperature, "recovery": f"{100 * recovery} %"}
    return {"sheet": "scale-tendency", "inputs": inputs}


def main():
    rows = []

    def compare(what, name, ours, theirs):
        rows.append((what, name, ours, theirs, abs(ours - theirs)))

    answers = iter(ask([request(water, recovery) for water in WATERS.values() for recovery in RECOVERIES]))
    for name, water in WATERS.items():
        feed = punch(solution(water, 1, water[-2]))
        for recovery in RECOVERIES:
            outputs = next(answers)["outputs"]
            value = lambda key: outputs[key]["value"]
            theirs = reject(water, 1 / (1 - recovery), feed["co2"])
            at = f"{name} at {100 * recovery:.0f} %"
            compare("calcite", f"{name}, feed", value("feed-calcite-index"), feed["calcite"])
            compare("pH", at, value("reject-ph"), theirs["pH"])
            compare("calcite", at, value("reject-calcite-index"), theirs["calcite"])
            compare("gypsum", at, math.log10(value("reject-gypsum-share") / 100), math.log10(theirs["gypsum"]))
            strength = value("reject-ionic-strength") / 1000 / theirs["ionic strength"]
            compare("ionic strength", at, strength, 1.0)
        limits = {row["scale"]["value"]: row["highest-recovery"]["value"] for row in value("scale-limits")}
        theirs = highest(water, feed)
        if theirs is None or limits["calcite"] is None:
            compare("highest recovery", name, 100 * (limits["calcite"] is None), 100 * (theirs is None))
        else:
            compare("highest recovery", name, limits["calcite"], theirs)

    for what, allowed in ALLOWED.items():
        worst = max((row for row in rows if row[0] == what), key=lambda row: row[4])
        print(f"scale against PHREEQC 3, {what}: largest difference {worst[4]:.4f} ({worst[1]}: {worst[2]:.4f} here, {worst[3]:.4f} there), allowed {allowed}")
    wrong = [row for row in rows if not row[4] <= ALLOWED[row[0]]]
    for what, name, ours, theirs, difference in wrong:
        print(f"{what}, {name}: {ours} here, {theirs} there, apart by {difference:.4f}")
    print(f"{len(WATERS)} waters, {len(rows)} numbers")
    print(f"{len(rows) - len(wrong)} passed, {len(wrong)} failed")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
