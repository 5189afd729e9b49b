"""The cold invented room a second time, with general reference libraries and no code of ours.

Viscosity and density from iapws (IAPWS-95 and the viscosity release of 2008), hose friction from fluids (Colebrook).
Reads the answers of the program through its JSON interface and compares them number by number.
"""

import json
import math
import os
import subprocess
import sys
from pathlib import Path

import fluids
from iapws import IAPWS95

ROOT = Path(__file__).resolve().parents[2]
RECORD = json.loads((ROOT / "examples" / "ostrin-vale.json").read_text(encoding="utf-8"))
PLACE, RO = RECORD["places"][0], RECORD["ro"]
CHOICE = next(event for event in RECORD["events"] if event["kind"] == "reference-chosen")
ANCHOR = next(event["fields"] for event in RECORD["events"] if event["id"] == CHOICE["of"])


def ask(request):
    done = subprocess.run(
        [os.environ["TAPSIDE_EVALUATE"]], input=json.dumps(request) + "\n", capture_output=True, text=True, check=True
    )
    return json.loads(done.stdout)["outputs"]


class Water:
    """At 0.1 MPa."""

    cache = {}

    def __new__(cls, celsius):
        if celsius not in cls.cache:
            cls.cache[celsius] = IAPWS95(T=celsius + 273.15, P=0.1)
        return cls.cache[celsius]


def forms(celsius):
    """The five published forms of the temperature correction, relative to 25 °C."""
    kelvin = celsius + 273.15
    exponential = lambda k: math.exp(k * (1 / 298.15 - 1 / kelvin))
    return [
        exponential(2640 if celsius >= 25 else 3020),
        exponential(2640),
        exponential(2700),
        1.03 ** (celsius - 25),
        Water(25).mu / Water(celsius).mu,
    ]


def ratios(celsius, anchor):
    return [to / at for to, at in zip(forms(celsius), forms(anchor))]


def hose_loss(litres_per_minute, celsius):
    """In bar; the hose of the record, smooth with 7 µm."""
    hose = PLACE["hoses"][0]
    bore, length = hose["bore"]["value"] / 1000, hose["length"]["value"]
    flow = litres_per_minute / 60_000
    velocity = flow / (math.pi / 4 * bore**2)
    water = Water(celsius)
    reynolds = fluids.Reynolds(V=velocity, D=bore, rho=water.rho, mu=water.mu)
    # between laminar and turbulent the turbulent factor is the cautious one
    laminar = reynolds < 2040
    friction = 64 / reynolds if laminar else fluids.friction.Colebrook(reynolds, 7e-6 / bore)
    return fluids.dP_from_K(fluids.K_from_f(fd=friction, L=length, D=bore), rho=water.rho, V=velocity) / 1e5


def bisect(function, low, high):
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (low, middle) if function(middle) else (middle, high)
    return high


def main():
    product, reject = ANCHOR["product-flow"]["value"], ANCHOR["reject-flow"]["value"]
    anchor = ANCHOR["tap-temperature"]["value"]
    flush_reject = RO["flush-reject-flow"]["value"]
    demand = max(1.2 * 0.5, PLACE["peak-draw"]["value"])
    outputs = ask({"sheet": "plan", "record": RECORD})
    rows = []

    def compare(name, ours, theirs, relative):
        rows.append((name, ours, theirs, abs(ours / theirs - 1), relative))

    compare("demand", outputs["demand"]["value"], demand, 1e-12)
    months = [row["temperature"]["value"] for row in PLACE["months"]]
    for row, celsius in zip(outputs["months"]["value"], months):
        month = row["month"]["value"]
        low, high = min(ratios(celsius, anchor)), max(ratios(celsius, anchor))
        compare(f"{month} product", row["product"]["value"], product * low, 1e-4)
        compare(f"{month} capacity", row["capacity"]["value"], product * low * 0.85, 1e-4)
        compare(f"{month} feed", row["feed"]["value"], product * high + reject, 1e-4)
        compare(f"{month} flush", row["flush"]["value"], product * high + flush_reject, 1e-4)
        compare(f"{month} recovery", row["recovery"]["value"], 100 * product * high / (product * high + reject), 1e-4)
    enough = lambda celsius: product * min(ratios(celsius, anchor)) * 0.85 >= demand
    lowest = bisect(lambda tenth: enough(round(tenth, 9)), 1.0, 20.0)
    compare("lowest workable", outputs["lowest-workable-temperature"]["value"], lowest, 1e-5)

    p0, p1, q1 = (PLACE[key]["value"] for key in ("shut-pressure", "open-pressure", "open-flow"))
    ends = {"today": anchor, "coldest": min(months), "warmest": max(months)}
    for row in outputs["inlet"]["value"]:
        celsius = ends[row["season"]["value"]]
        flow = product * max(ratios(celsius, anchor)) + flush_reject
        left = p0 - (p0 - p1) * (flow / q1) ** 2 - hose_loss(flow, celsius) - RO["least-inlet-pressure"]["value"]
        compare(f"{row['season']['value']} pressure to spare", row["to-spare"]["value"], left, 1e-4)
    volume = RO["bed-volume"]["value"]
    for row in outputs["carbon"]["value"]:
        celsius = ends[row["season"]["value"]]
        flow = product * max(ratios(celsius, anchor))
        compare(f"{row['season']['value']} contact", row["running-first"]["value"], volume / (flow + reject), 1e-4)
        compare(f"{row['season']['value']} contact in flush", row["flush-first"]["value"], volume / (flow + flush_reject), 1e-4)

    for celsius in (1.0, 5.0, 10.0, 20.0, 25.0, 30.0, 35.0):
        table = ask({"sheet": "temperature-correction", "inputs": {"temperature": f"{celsius} °C"}})["form-factors"]["value"]
        for row, theirs in zip(table, forms(celsius)):
            compare(f"form {row['form']['value']} at {celsius} °C", row["factor"]["value"], theirs, 5e-5)

    wrong = [row for row in rows if not row[3] <= row[4]]
    for name, ours, theirs, difference, allowed in wrong:
        print(f"{name}: {ours} here, {theirs} there, apart by {difference:.2e}, allowed {allowed:.0e}")
    worst = max(rows, key=lambda row: row[3])
    print(f"cold room against iapws and fluids: {len(rows)} numbers, largest difference {worst[3]:.1e} ({worst[0]})")
    print(f"{len(rows) - len(wrong)} passed, {len(wrong)} failed")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
