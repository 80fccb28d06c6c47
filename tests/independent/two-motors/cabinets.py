"""Four two-motor cabinets, solved by SciPy from equations written down here and nowhere else.

python3 cabinets.py > data.json

Every cabinet is a linear network of rms phasors for given speeds, two shafts, and one fuse of first-order
thermal terms. `network` writes each cabinet's own loop equations as a small dense system. Stretches between
sudden changes are integrated by DOP853 at rtol 1e-11, atol 1e-13, and joined at its located events.
"""
import json
import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq


def winding_currents(m, omega, closed, k):
    """Currents (main, auxiliary) per volt, and torque per volt squared; k scales reactances to the supply."""
    ws = 4 * np.pi * m["frequency"] * k / m["poles"]
    s = 1 - omega / ws
    jxm = 1j * m["xm"] * k

    def half(sigma):
        rotor = m["r2"] / sigma + 1j * m["x2"] * k
        return 0.5 * jxm * rotor / (jxm + rotor)

    zf, zb = half(s), half(2 - s)
    a = m["a"]
    parts = [c for c in ([m["start"]] if closed and m["start"] else []) + ([m["run"]] if m["run"] else [])]
    series = 1 / sum(1 / (r - 1j * x / k) for r, x in parts) if parts else 0
    zm = m["r1"] + 1j * m["x1"] * k + zf + zb
    if not parts and not closed:
        im, ia = 1 / zm, 0
    else:
        za = m["ra"] + 1j * m["xa"] * k + series + a * a * (zf + zb)
        z = np.array([[zm, -1j * a * (zf - zb)], [1j * a * (zf - zb), za]])
        im, ia = np.linalg.solve(z, [1, 1])
    forward, backward = abs(im - 1j * a * ia) ** 2 * zf.real, abs(im + 1j * a * ia) ** 2 * zb.real
    return im + ia, (forward - backward) / ws, ws


def load_torque(d, omega, ws):
    x = omega / ws
    return d["rest"] + (d["full"] - d["rest"]) * (x * x if d["shape"] == "square" else x)


def network(c, y):
    """Line current, voltage at the lamps, voltages at both motors, for motor admittances y (0: off)."""
    if c["fuse open"]:
        return 0, 0, (0, 0)
    e, zs = c["volts"], complex(*c["source"]) + complex(*c["feeder"]) + c["fuse r"]
    zc = [complex(*z) for z in c["branch"]]
    behind = [v / (1 + z * v) for z, v in zip(zc, y)]
    lamps = 1 / c["lamps"]
    if c["form"] == "autotransformer":
        # unknowns: line current I, input V, legs V1 and V2; windings carry I - Iexc - I1 and I - Iexc - I2
        n1, n2 = c["windings"]
        zw, y0 = complex(*c["leakage"]), complex(c["exciting"][0], -c["exciting"][1])
        y1, y2 = lamps + behind[0], behind[1]
        a = np.array([
            [zs, 1, 0, 0],
            [0, -1, 1, 1],
            [n1 + n2, -(n1 + n2) * y0, -n1 * y1, -n2 * y2],
            [-zw, zw * y0, 1 + zw * y1, -n1 / n2],
        ])
        i, _, v1, v2 = np.linalg.solve(a, [e, 0, 0, 0])
        return i, v1, (v1 / (1 + zc[0] * y[0]), v2 / (1 + zc[1] * y[1]))
    if c["form"] == "transformer":
        # second winding V2 = n (V - Z I'), I' = n I2
        n = c["windings"][1] / c["windings"][0]
        z, y0 = complex(*c["leakage"]), complex(c["exciting"][0], -c["exciting"][1])
        a = np.array([
            [zs, 1, 0],
            [1, -y0, -n * (lamps + sum(behind))],
            [0, n, -1 - n * n * z * (lamps + sum(behind))],
        ])
        i, _, v2 = np.linalg.solve(a, [e, 0, 0])
        return i, v2, tuple(v2 / (1 + z * v) for z, v in zip(zc, y))
    # straight on the line
    total = lamps + sum(behind)
    v = e / (1 + zs * total)
    return v * total, v, tuple(v / (1 + z * w) for z, w in zip(zc, y))


def solve(c):
    k = c["frequency"] / c["machine"]["frequency"]
    f = c["fuse"]
    share, tau = np.array(f["share"]), np.array(f["tau"])
    c = dict(c, **{"fuse open": False})
    on, turning, closed = [c["starts"][0] <= 0, c["starts"][1] <= 0], [False, False], [True, True]
    m, ws = c["machine"], 4 * np.pi * c["frequency"] / c["machine"]["poles"]

    def electric(y):
        found = [winding_currents(m, y[j], closed[j], k) if on[j] else (0, 0, ws) for j in (0, 1)]
        i, lamps, volts = network(c, [g for g, _, _ in found])
        torques = [abs(v) ** 2 * t for v, (_, t, _) in zip(volts, found)]
        currents = [abs(v * g) for v, (g, _, _) in zip(volts, found)]
        return abs(i), abs(lamps), [abs(v) for v in volts], torques, currents

    def rates(_, y):
        i, _, _, torque, _ = electric(y)
        shafts = [
            (torque[j] - load_torque(c["drives"][j], y[j], ws)) / c["inertia"][j] if turning[j] else 0 for j in (0, 1)
        ]
        return [*shafts, *((share * (i / f["minimum"]) ** 2 - y[2:]) / tau)]

    def watched():
        """(name, function, direction) of what may happen in this stretch."""
        list_ = []
        for j in (0, 1):
            if m["switch"]:
                opens, closes = m["switch"]
                level = (opens if closed[j] else closes) * ws
                list_.append((f"switch {j + 1}", lambda t, y, j=j, level=level: y[j] - level, 1 if closed[j] else -1))
            if turning[j]:
                list_.append((f"rest {j + 1}", lambda t, y, j=j: y[j] if t > begun else 1, -1))
            elif on[j]:
                at_rest = c["drives"][j]["rest"]
                list_.append((f"break {j + 1}", lambda t, y, j=j, q=at_rest: electric(y)[3][j] - q, 1))
        if not c["fuse open"]:
            list_.append(("melt", lambda t, y: sum(y[2:]) - 1, 1))
        return list_

    t, y, begun = 0.0, np.zeros(2 + len(tau)), 0.0
    events, arcs, lowest = [], [], [c["volts"]] * 3
    timers = sorted(s for s in c["starts"] if s > 0)

    def happen(name):
        nonlocal c
        events.append([name, t])
        what, j = (name.split() + ["1"])[:2]
        j = int(j) - 1
        if what == "switch":
            closed[j] = not closed[j]
        elif what == "rest":
            turning[j], y[j] = False, 0.0
        elif what == "break":
            turning[j] = True
        else:
            c = dict(c, **{"fuse open": True})

    while t < c["end"]:
        for j in (0, 1):
            if on[j] and not turning[j] and electric(y)[3][j] > c["drives"][j]["rest"]:
                happen(f"break {j + 1}")
        here = watched()
        functions = []
        for _, g, direction in here:
            g.terminal, g.direction = True, direction
            functions.append(g)
        until = min([s for s in timers if s > t] + [c["end"]])
        begun = t
        s = solve_ivp(rates, (t, until), y, "DOP853", events=functions, rtol=1e-11, atol=1e-13, dense_output=True)
        arcs.append((t, s.t[-1], s.sol, list(on), list(turning), list(closed), c))
        grid = np.linspace(t, s.t[-1], 400)
        for at in grid:
            _, lamps, volts, _, _ = electric(s.sol(at))
            lowest = [min(a, b) for a, b in zip(lowest, [lamps, *volts])] if not c["fuse open"] and all(on) else lowest
        t, y = float(s.t[-1]), s.y[:, -1].copy()
        if s.status == 1:
            for (name, _, _), times in zip(here, s.t_events):
                if len(times):
                    happen(name)
        else:
            for j in (0, 1):
                if not on[j] and c["starts"][j] <= t:
                    on[j] = True

    def at(time):
        for a, b, sol, on_, turning_, closed_, c_ in arcs:
            if a <= time <= b:
                return sol(time), (on_, turning_, closed_, c_)
        raise ValueError(time)

    def whole(time):
        nonlocal c
        state, (on[:], turning[:], closed[:], c) = at(time)
        i, lamps, volts, _, currents = electric(state)
        return {"t": time, "line_A": i, "lamps_V": lamps, "motors_V": volts, "motors_A": currents,
                "speeds_radps": list(state[:2]), "terms": list(state[2:])}

    run_ups = []
    for j in (0, 1):
        final = y[j]
        reached = None
        if final > 0 and not c["fuse open"]:
            reached = brentq(lambda x: at(x)[0][j] - 0.95 * final, c["starts"][j] + 1e-9, c["end"], xtol=1e-13)
            reached -= c["starts"][j]
        run_ups.append(reached)
    samples = [whole(x) for x in c["samples"]]
    end = whole(c["end"])
    return {"events": events, "runUp_s": run_ups, "lowest_V": lowest, "samples": samples, "end": end}


K = 4.5
CAPACITOR_START = {
    "poles": 4, "frequency": 60, "r1": 2.02 / K, "x1": 2.79 / K, "ra": 7.14 / K, "xa": 3.22 / K, "r2": 4.12 / K,
    "x2": 2.12 / K, "xm": 66.8 / K, "a": 1.18, "start": [3 / K, 14.5 / K], "run": None, "switch": [0.75, 0.45],
}
SPLIT_CAPACITOR = {
    "poles": 6, "frequency": 50, "r1": 34.14, "x1": 35.9, "ra": 149.78, "xa": 29.32 * 1.4, "r2": 23.25, "x2": 29.32,
    "xm": 248.59, "a": 1.73, "start": None, "run": [2, 480], "switch": None,
}
LINE = {"volts": 240, "frequency": 60, "source": [0.22, 0.16], "feeder": [0.36, 0.05], "fuse r": 0.012}
FUSE = {"minimum": 33, "share": [0.05, 0.35, 0.6], "tau": [0.3, 6, 120]}

CABINETS = [
    {
        "name": "opposite legs, the second three seconds later", **LINE, "machine": CAPACITOR_START,
        "form": "autotransformer", "windings": [120, 120], "leakage": [0.19, 0.11], "exciting": [2e-4, 1.1e-3],
        "branch": [[0.06, 0.01], [0.09, 0.01]], "lamps": 28.0, "fuse": FUSE, "starts": [0, 3],
        "drives": [{"rest": 3.6, "full": 9.5, "shape": "square"}, {"rest": 2.0, "full": 8.0, "shape": "linear"}],
        "inertia": [0.0438, 0.036], "end": 9, "samples": [0.1, 0.35, 0.8, 2.9, 3.1, 3.4, 4.5],
    },
    {
        "name": "unequal windings, legs exchanged", **LINE, "machine": CAPACITOR_START,
        "form": "autotransformer", "windings": [132, 108], "leakage": [0.3, 0.2], "exciting": [1e-4, 2e-3],
        "branch": [[0.05, 0], [0.05, 0]], "lamps": 40.0, "fuse": FUSE, "starts": [1.5, 0],
        "drives": [{"rest": 1.0, "full": 7.0, "shape": "square"}, {"rest": 0.5, "full": 6.0, "shape": "square"}],
        "inertia": [0.03, 0.03], "end": 7, "samples": [0.2, 0.5, 1.4, 1.7, 2.2, 4],
    },
    {
        "name": "both together, the second never breaks away", **LINE, "machine": CAPACITOR_START,
        "form": "transformer", "windings": [240, 120], "leakage": [0.35, 0.22], "exciting": [2e-4, 1e-3],
        "branch": [[0.04, 0.005], [0.1, 0.01]], "lamps": 30.0, "fuse": {**FUSE, "minimum": 45}, "starts": [0, 0],
        "drives": [{"rest": 1.2, "full": 5.5, "shape": "square"}, {"rest": 14.0, "full": 14.0, "shape": "linear"}],
        "inertia": [0.03, 0.03], "end": 6, "samples": [0.1, 0.4, 0.7, 1.5, 3],
    },
    {
        "name": "the fuse melts in the second start", **LINE, "machine": CAPACITOR_START,
        "form": "transformer", "windings": [240, 120], "leakage": [0.35, 0.22], "exciting": [2e-4, 1e-3],
        "branch": [[0.04, 0.005], [0.1, 0.01]], "lamps": 30.0,
        "fuse": {"minimum": 13, "share": [0.3, 0.7], "tau": [0.8, 9]}, "starts": [0, 1.2],
        "drives": [{"rest": 1.2, "full": 5.5, "shape": "square"}, {"rest": 1.0, "full": 3.0, "shape": "linear"}],
        "inertia": [0.03, 0.05], "end": 8, "samples": [0.1, 0.5, 1.1, 1.3, 3],
    },
    {
        "name": "50 Hz permanent split capacitor on a long line", "volts": 230, "frequency": 50,
        "source": [1.1, 0.4], "feeder": [9.5, 0.9], "fuse r": 0.08, "machine": SPLIT_CAPACITOR,
        "form": "straight", "branch": [[2.5, 0.2], [1.5, 0.1]], "lamps": 700.0,
        "fuse": {"minimum": 4.1, "share": [0.1, 0.4, 0.5], "tau": [0.4, 5, 90]}, "starts": [0, 1.2],
        "drives": [{"rest": 0.15, "full": 1.1, "shape": "square"}, {"rest": 0.2, "full": 0.9, "shape": "linear"}],
        "inertia": [0.0021, 0.0026], "end": 6, "samples": [0.1, 0.3, 1.1, 1.3, 1.6, 3],
    },
]

if __name__ == "__main__":
    print(json.dumps([{"given": c, "found": solve(c)} for c in CABINETS], indent=1))
