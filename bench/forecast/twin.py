"""The same forecast in numpy and scipy, written from docs/guide/wear.md and estimate.md: python3 twin.py < fleet.jsonl

One line an engine: checkBy and, for each valve, loss an interval, its sd and the chance to be out after an interval. It
knows blade trials at 20 degrees, the usual fingers and shims by micrometer, which is what fleet.py writes; no signs, no room left.
"""
import json
import sys

import numpy as np
from scipy.special import erfcx, log_ndtr, ndtr

STEP = 0.0005
SHARED = np.linspace(0, 0.24, 97)
SHARED_PRIOR = np.exp(-SHARED / 0.04) * np.r_[0.5, np.ones(95), 0.5]
SHARED_PRIOR /= SHARED_PRIOR.sum()
OWN, WIDE, RISK = 0.02, 0.03, 0.10
STRAY = 0.10
CHANGE = 0.004 ** 2 + 2 * 0.002 ** 2
GAUSS_C, WEIGHT_C = np.polynomial.legendre.leggauss(48)
GAUSS_R, WEIGHT_R = np.polynomial.legendre.leggauss(32)


def likelihood(grid, trials):
    total = np.zeros_like(grid)
    for trial in trials:
        d = grid - trial["blade"]
        above = ndtr((d[:, None] + np.array([0.025, 0.005, -0.017])) / np.hypot(0.006, 0.003))
        a, b, c = above.T
        p = {"no": 1 - a, "firm": a - b, "light": b - c, "loose": c}[trial["feel"]]
        total += np.log(0.98 * p + 0.005)
    return total


def without_history(grid, low, high):
    """Density on the grid for each amount of shared loss: a normal less an exponential, mixed with a wide uniform."""
    middle, sigma = (low + high) / 2, (high - low) / 4
    y = middle - SHARED[None, :] - grid[:, None]
    z = (sigma / OWN - y / sigma) / np.sqrt(2)
    # exp(s²/2t² - y/t)·erfc(z)/2t, written so that neither factor overflows.
    body = np.where(z > 0, np.exp(-0.5 * (y / sigma) ** 2) * erfcx(np.maximum(z, 0)),
                    2 * np.exp(0.5 * (sigma / OWN) ** 2 - y / OWN) * ndtr(-np.minimum(z, 0) * np.sqrt(2))) / (2 * OWN)
    uniform = (np.abs(grid - middle) <= 0.5)[:, None] * 1.0
    return (1 - WIDE) * body + WIDE * uniform


def first_check(valves, check):
    sides, tables = {}, {}
    for v, (low, high, side, grid, plain) in valves.items():
        felt = np.exp(likelihood(grid, check[v]) if v in check else np.zeros_like(grid))
        tables[v] = plain * felt[:, None]
        sides.setdefault(side, []).append(v)
    evidence = {v: t.sum(0) * STEP for v, t in tables.items()}
    one = SHARED_PRIOR * np.prod([evidence[v] for v in valves], axis=0)
    each = {s: SHARED_PRIOR * np.prod([evidence[v] for v in its], axis=0) for s, its in sides.items()}
    together, apart = one.sum(), np.prod([w.sum() for w in each.values()])
    state = {}
    for v, (_, _, side, grid, _) in valves.items():
        weight = one / evidence[v] / together * (together / (together + apart)) \
            + each[side] / evidence[v] / each[side].sum() * (apart / (together + apart))
        density = tables[v] @ weight
        mean = (density * grid).sum() / density.sum()
        state[v] = mean, (density * (grid - mean) ** 2).sum() / density.sum()
    return state


def passage(d, r, q, t):
    root = np.sqrt(q * t)
    return ndtr((r * t - d) / root) + np.exp(2 * r * d / q + log_ndtr(-(d + r * t) / root))


def chance_out(state, low, high, q, t):
    c, r, pcc, prc, prr = state
    sd = np.sqrt(max(pcc, 1e-18))
    a, b = max(low, c - 6 * sd), min(high, c + 6 * sd)
    inside = ndtr((high - c) / sd) - ndtr((low - c) / sd)
    if b <= a or t <= 0:
        return 1 - inside
    cs = (a + b) / 2 + (b - a) / 2 * GAUSS_C
    wc = (b - a) / 2 * WEIGHT_C * np.exp(-0.5 * ((cs - c) / sd) ** 2) / (sd * np.sqrt(2 * np.pi))
    mr = r + prc / pcc * (cs - c)
    sr = np.sqrt(max(prr - prc ** 2 / pcc, 1e-24))
    leaves = np.zeros_like(cs)
    for sign, edge in ((1, low), (-1, high)):
        m = sign * mr
        lo, hi = np.maximum(0, m - 6 * sr), m + 6 * sr
        half = np.maximum(hi - lo, 0) / 2
        rs = ((lo + hi) / 2)[:, None] + half[:, None] * GAUSS_R
        wr = half[:, None] * WEIGHT_R * np.exp(-0.5 * ((rs - m[:, None]) / sr) ** 2) / (sr * np.sqrt(2 * np.pi))
        leaves += (wr * passage(np.abs(cs - edge)[:, None], np.maximum(rs, 0), q, t)).sum(1)
    return min(1, max(0, 1 - inside + (wc * leaves).sum()))


def forecast(job):
    wear = job["engine"]["wear"]
    interval = wear["interval"]
    mu, tau, q = wear["lossPerInterval"] / interval, wear["spread"] / interval, 0.005 ** 2 / interval
    valves = {}
    for v in job["engine"]["valves"]:
        low, high = v["band"]
        middle = (low + high) / 2
        grid = np.arange(middle - 0.5, middle + 0.5 + STEP / 2, STEP)
        plain = without_history(grid, low, high)
        valves[v["id"]] = (low, high, v["side"], grid, plain)
    alone = {v: plain @ SHARED_PRIOR for v, (_, _, _, _, plain) in valves.items()}
    checks = job["history"] + [job["check"]]
    state, clock = {}, None
    for check in checks:
        read = {r["valve"]: r["trials"] for r in check["readings"]}
        if clock is None:
            state = {v: (m, mu, var, 0.0, tau ** 2) for v, (m, var) in first_check(valves, read).items()}
        else:
            dt = check["clock"] - clock
            for v, (c, r, pcc, prc, prr) in state.items():
                c, pcc, prc = c - r * dt, pcc - 2 * dt * prc + dt * dt * prr + q * dt, prc - dt * prr
                if v in read:
                    grid = valves[v][3]
                    grid = np.arange(min(grid[0], c - 6 * np.sqrt(pcc)), max(grid[-1], c + 6 * np.sqrt(pcc)), STEP)
                    stray = np.interp(grid, valves[v][3], alone[v], 0, 0)
                    expected = np.exp(-0.5 * (grid - c) ** 2 / pcc) / np.sqrt(2 * np.pi * pcc)
                    density = ((1 - STRAY) * expected + STRAY * stray) * np.exp(likelihood(grid, read[v]))
                    mean = (density * grid).sum() / density.sum()
                    var = (density * (grid - mean) ** 2).sum() / density.sum()
                    k = prc / pcc
                    c, r, pcc, prc, prr = mean, r + k * (mean - c), var, k * var, prr + k * k * (var - pcc)
                state[v] = (c, r, pcc, prc, prr)
        clock = check["clock"]
        for change in check.get("changed", []):
            v = change["valve"]
            c, r, pcc, prc, prr = state[v]
            state[v] = (c + change["from"]["thickness"] - change["to"]["thickness"], r, pcc + CHANGE, prc, prr)

    def any_out(t):
        return 1 - np.prod([1 - chance_out(state[v], low, high, q, t) for v, (low, high, _, _, _) in valves.items()])

    if any_out(0) >= RISK:
        by = 0.0
    elif any_out(interval) <= RISK:
        by = interval
    else:
        a, b = 0.0, interval
        while b - a > 1e-4 * interval:
            t = (a + b) / 2
            a, b = (t, b) if any_out(t) < RISK else (a, t)
        by = (a + b) / 2
    return {"checkBy": clock + by, "valves": [
        [s[1] * interval, np.sqrt(s[4]) * interval, chance_out(s, valves[v][0], valves[v][1], q, interval)] for v, s in state.items()]}


if __name__ == "__main__":
    for line in sys.stdin:
        print(json.dumps(forecast(json.loads(line))))
