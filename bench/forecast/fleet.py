"""Writes a fleet as job files, one a line, for `shimwright forecast --batch`: python3 fleet.py ENGINES [CHECKS] > fleet.jsonl

Single-cylinder engines with four valves that wear as docs/guide/wear.md has it; three blades a valve at each check, felt with
the usual fingers; a valve below its band gets a shim that brings it to the middle. Invented; seeded.
"""
import json
import sys

import numpy as np
from scipy.special import ndtr

INTERVAL, LOSS, SPREAD = 30.0, 0.02, 0.02
Q = 0.005 ** 2 / INTERVAL
BLADES = np.array([0.04, 0.05, 0.06, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25, 0.28, 0.30, 0.35])
VALVES = [("I1", "intake", 0.10, 0.17), ("I2", "intake", 0.10, 0.17), ("E1", "exhaust", 0.17, 0.24), ("E2", "exhaust", 0.17, 0.24)]
FEELS = ["no", "firm", "light", "loose"]


def feel(gap, blade, chance):
    edges = 1 - ndtr((gap - blade + np.array([0.025, 0.005, -0.017])) / np.hypot(0.006, 0.003))
    return FEELS[int(np.searchsorted(edges, chance.random()))]


def engine(number, checks):
    chance = np.random.default_rng([4711, number])
    low = np.array([v[2] for v in VALVES])
    middle = np.array([(v[2] + v[3]) / 2 for v in VALVES])
    gap = middle + 0.0175 * chance.standard_normal(4) - chance.exponential(0.02, 4)
    rate = (LOSS + SPREAD * chance.standard_normal(4)) / INTERVAL
    shim = np.round(chance.uniform(2.1, 2.9, 4), 2)
    clock, taken = 0.0, []
    for k in range(checks):
        if k > 0:
            hours = round(float(chance.uniform(0.6, 1.0)) * INTERVAL, 1)
            clock = round(clock + hours, 1)
            gap = gap - rate * hours + np.sqrt(Q * hours) * chance.standard_normal(4)
        readings, fitted, changed = [], [], []
        for v, (name, _, _, _) in enumerate(VALVES):
            near = np.sort(np.argsort(np.abs(BLADES - gap[v]))[:3])
            readings.append({"valve": name, "trials": [{"blade": float(b), "feel": feel(gap[v], b, chance)} for b in BLADES[near]]})
            fitted.append({"valve": name, "thickness": float(shim[v]), "by": "micrometer"})
            if gap[v] < low[v] + 0.005 and k < checks - 1:
                to = round(float(np.clip(round((shim[v] + gap[v] - middle[v]) / 0.05) * 0.05, 1.2, 3.5)), 2)
                if to != shim[v]:
                    changed.append({"valve": name, "from": fitted[-1] | {}, "to": {"thickness": to, "by": "micrometer"}})
                    del changed[-1]["from"]["valve"]
                    gap[v] += shim[v] - to + 0.004 * chance.standard_normal()
                    shim[v] = to
        taken.append({"clock": clock, "readings": readings, "fitted": fitted, "changed": changed})
    last = taken.pop()
    del last["changed"]
    for t in taken:
        if not t["changed"]:
            del t["changed"]
    return {
        "format": "shimwright-job/1",
        "engine": {
            "name": f"Fleet engine {number}", "valvetrain": "shim-under-bucket",
            "valves": [{"id": n, "cylinder": 1, "side": s, "access": s + " cam", "band": [lo, hi]} for n, s, lo, hi in VALVES],
            "wear": {"clock": "hours", "interval": INTERVAL, "lossPerInterval": LOSS, "spread": SPREAD},
        },
        "history": taken,
        "check": last,
        "stock": {"buy": {"from": 1.2, "to": 3.5, "step": 0.05, "price": 6.0}},
    }


if __name__ == "__main__":
    for n in range(int(sys.argv[1])):
        print(json.dumps(engine(n, int(sys.argv[2]) if len(sys.argv) > 2 else 20)))
