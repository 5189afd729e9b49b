"""A membrane that stays the same, a second time: the balance along it integrated by scipy, and no code of ours.

Along the membrane a share of the feed is taken as product. What passes at each spot is a fixed share of what stands there:
with c the salt of the rest and y the share taken so far, dc/dy = c (1 - p) / (1 - y), and the product holds the mean of p c.
"""

import json
import os
import subprocess
import sys

from scipy.integrate import solve_ivp

FEED = 640.0
PASSAGES = (0.1, 0.5, 2, 5, 12, 40, 90)
RECOVERIES = (1, 10, 25, 50, 62.5, 80, 92)


def integrate(passage, recovery):
    def slope(taken, state):
        return [state[0] * (1 - passage) / (1 - taken), passage * state[0]]

    done = solve_ivp(slope, (0, recovery), [FEED, 0], rtol=1e-10, atol=1e-10)
    return done.y[1, -1] / recovery, done.y[0, -1]


def main():
    cases = [(passage, recovery) for passage in PASSAGES for recovery in RECOVERIES]
    text = ""
    for passage, recovery in cases:
        inputs = {"local-passage": f"{passage} %", "feed-conductivity": f"{FEED} µS/cm", "recovery": f"{recovery} %"}
        text += json.dumps({"sheet": "same-membrane", "inputs": inputs}) + "\n"
    done = subprocess.run([os.environ["TAPSIDE_EVALUATE"]], input=text, capture_output=True, text=True, check=True)
    answers = [json.loads(line)["outputs"] for line in done.stdout.splitlines()]
    rows = []
    for (passage, recovery), outputs in zip(cases, answers, strict=True):
        product, reject = integrate(passage / 100, recovery / 100)
        for name, theirs, bound in (
            ("product-conductivity", product, 1e-7),
            ("product-by-steps", product, 1e-5),
            ("reject-conductivity", reject, 1e-7),
        ):
            apart = abs(outputs[name]["value"] / theirs - 1)
            rows.append((f"{name} of {passage} % at {recovery} %", outputs[name]["value"], theirs, apart, bound))
    wrong = [row for row in rows if not row[3] <= row[4]]
    for name, ours, theirs, apart, _ in wrong:
        print(f"{name}: {ours} here, {theirs} there, apart by {apart:.2e}")
    worst = max((row for row in rows if row[4] < 1e-5), key=lambda row: row[3])
    print(f"one membrane against scipy: {len(rows)} numbers, largest difference {worst[3]:.1e} ({worst[0]})")
    print(f"{len(rows) - len(wrong)} passed, {len(wrong)} failed")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
