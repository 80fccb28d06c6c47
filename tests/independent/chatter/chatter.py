"""Two cabinets whose contactor chatters, solved by SciPy from equations written down here and nowhere else.

python3 chatter.py > data.json

A line with impedance feeds lamps, the coil's little transformer and, through the contactor, two motors. Everything is an
rms phasor for given speeds, found from the mesh equations as one dense system; the shafts are integrated by DOP853 at
rtol 1e-11, atol 1e-13, from one thing that happens to the next. What the contactor and the delay relay do is a table of
their own, by coil volts, relay volts and time.
"""
import json
import numpy as np
from scipy.integrate import solve_ivp

CLOSE = 1e-12


def windings(m, omega, closed):
    """Line current per volt and torque per volt squared of one motor by its two revolving fields."""
    ws = 4 * np.pi * m["frequency"] / m["poles"]
    s = 1 - omega / ws

    def half(sigma):
        rotor = m["r2"] / sigma + 1j * m["x2"]
        return 0.5j * m["xm"] * rotor / (1j * m["xm"] + rotor)

    zf, zb = half(s), half(2 - s)
    a = m["a"]
    zm = complex(*m["main"]) + zf + zb
    if closed:
        za = complex(*m["auxiliary"]) + complex(m["capacitor"][0], -m["capacitor"][1]) + a * a * (zf + zb)
        im, ia = np.linalg.solve([[zm, -1j * a * (zf - zb)], [1j * a * (zf - zb), za]], [1, 1])
    else:
        im, ia = 1 / zm, 0
    forward, backward = abs(im - 1j * a * ia) ** 2 * zf.real, abs(im + 1j * a * ia) ** 2 * zb.real
    return im + ia, (forward - backward) / ws


def solve(c):
    m = c["machine"]
    ws = 4 * np.pi * m["frequency"] / m["poles"]
    coil, relay = c["coil"], c["relay"]
    drives = c["drives"]
    contacts = {"state": "open", "due": None}
    timer = {"state": "off" if relay else "closed", "since": 0.0, "lapses": None}
    start, turning = [True, True], [False, False]

    def is_closed():
        return contacts["state"] in ("closed", "letting go")

    def on(j):
        return is_closed() and (j == 0 or timer["state"] == "closed")

    def network(y):
        """Bus volts, coil volts, line amperes to the contacts, and torques: mesh currents of line and coil."""
        per_volt = [windings(m, y[j], start[j]) if on(j) else (0, 0) for j in (0, 1)]
        kind = "sealed" if is_closed() else "inrush"
        va, pf = coil[kind]
        yc = va * complex(pf, -np.sqrt(1 - pf * pf)) / coil["rated"] ** 2
        n = coil["rated"] / c["volts"]
        zs, zt = complex(*c["source"]), complex(*coil["transformer"])
        load = 1 / c["lamps"] + per_volt[0][0] + per_volt[1][0]
        # unknowns: bus volts V, line current I, current It into the little transformer, coil volts Vc
        a = np.array([
            [1, zs, 0, 0],
            [-load, 1, -1, 0],
            [n, 0, -n * zt, -1],
            [0, 0, 1, -n * yc],
        ])
        v, _, _, vc = np.linalg.solve(a, [c["volts"], 0, 0, 0])
        motors = [abs(v * g) for g, _ in per_volt]
        drawn = abs(v * (per_volt[0][0] + per_volt[1][0]))
        return abs(v), abs(vc), drawn, [abs(v) ** 2 * t for _, t in per_volt], motors

    def load_torque(j, omega):
        rest, full = drives[j]
        return rest + (full - rest) * (omega / ws) ** 2

    def rates(_, y):
        torque = network(y)[3]
        return [(torque[j] - load_torque(j, y[j])) / c["inertia"][j] if turning[j] else 0 for j in (0, 1)]

    t, y = 0.0, np.zeros(2)
    told, closings = [], []

    def watched():
        """What may happen next: (name, value above zero once it has happened)."""
        out = []
        level = {"closed": coil["drop"], "letting go": coil["pull"], "open": coil["pull"], "pulling in": coil["pull"]}
        sign = {"closed": -1, "letting go": 1, "open": 1, "pulling in": -1}
        state = contacts["state"]
        slack = 1e-9 * coil["pull"] if state == "pulling in" else 0
        out.append(("coil", lambda t, y: sign[state] * (network(y)[1] - level[state]) - slack))
        if relay:
            half = 0.5 * c["volts"]
            dead = timer["state"] == "off" or timer["lapses"] is not None
            fed = lambda y: network(y)[0] if is_closed() else 0.0
            out.append(("relay", (lambda t, y: fed(y) - half) if dead else (lambda t, y: half * (1 - 1e-9) - fed(y))))
        for j in (0, 1):
            if not on(j) and not turning[j]:
                continue
            opens, closes = m["switch"]
            out.append((f"switch {j}", (lambda t, y, j=j: y[j] - opens * ws) if start[j] else (lambda t, y, j=j: closes * ws - y[j])))
            if turning[j]:
                out.append((f"rest {j}", lambda t, y, j=j: -1e-9 - y[j]))
            else:
                out.append((f"break {j}", lambda t, y, j=j: network(y)[3][j] - drives[j][0] - 1e-9))
        return out

    def happen(name):
        nonlocal y
        if name == "coil":
            state = contacts["state"]
            contacts["state"] = {"closed": "letting go", "letting go": "closed", "open": "pulling in", "pulling in": "open"}[state]
            contacts["due"] = {"closed": t + coil["drops in"], "open": t + coil["pulls in"]}.get(state)
        elif name == "lag":
            closes = contacts["state"] == "pulling in"
            contacts.update(state="closed" if closes else "open", due=None)
            told.append(["closes" if closes else "opens", t])
            if closes:
                closings.append([t, network(y)[2]])
        elif name == "relay":
            if timer["state"] == "off":
                timer.update(state="timing", since=t)
            elif timer["lapses"] is None:
                timer["lapses"] = t + relay["reset"]
            else:
                timer["lapses"] = None
        elif name == "reset":
            timer.update(state="off", lapses=None)
            told.append(["resets", t])
        elif name == "times out":
            timer["state"] = "closed"
            told.append(["times out", t])
        else:
            what, j = name.split()
            j = int(j)
            if what == "switch":
                start[j] = not start[j]
            elif what == "rest":
                turning[j], y[j] = False, 0.0
            else:
                turning[j] = True

    def due():
        out = []
        if contacts["due"] is not None:
            out.append(("lag", contacts["due"]))
        if relay and timer["lapses"] is not None:
            out.append(("reset", timer["lapses"]))
        if relay and timer["state"] == "timing":
            out.append(("times out", timer["since"] + relay["delay"]))
        return sorted(out, key=lambda one: one[1])

    # Called at 0 s, its coil live before: with enough volts the contacts close there and then.
    if network(y)[1] >= coil["pull"]:
        contacts.update(state="pulling in", due=0.0)
    while t < c["end"]:
        timers = due()
        if timers and timers[0][1] <= t + CLOSE:
            happen(timers[0][0])
            continue
        here = watched()
        already = [name for name, g in here if g(t, y) >= 0 and not (name.startswith("switch") and abs(g(t, y)) < 1e-6)]
        if already:
            happen(already[0])
            continue
        until = min([at for _, at in timers] + [c["end"]])
        functions = []
        for _, g in here:
            g.terminal, g.direction = True, 1
            functions.append(g)
        s = solve_ivp(rates, (t, until), y, "DOP853", events=functions, rtol=1e-11, atol=1e-13)
        t, y = float(s.t[-1]), s.y[:, -1].copy()
        if s.status == 1:
            happen(next(name for (name, _), times in zip(here, s.t_events) if len(times)))
        elif timers and timers[0][1] <= until:
            t = timers[0][1]
    again = [at for at, _ in closings]
    most = max((sum(1 for other in again if at <= other <= at + 1) for at in again), default=0)
    return {
        "events": told,
        "opens": sum(1 for what, _ in told if what == "opens"),
        "closes again": max(0, len(closings) - 1),
        "in one second": most,
        "most A": max([a for _, a in closings[1:]], default=None),
        "speeds": list(y),
        "switches": start,
    }


MACHINE = {
    "poles": 4, "frequency": 60, "main": [2.02, 2.79], "auxiliary": [7.14, 3.22], "r2": 4.12, "x2": 2.12, "xm": 66.8,
    "a": 1.18, "capacitor": [3, 14.5], "switch": [0.75, 0.45],
}
COIL = {
    "rated": 24, "pull": 19, "drop": 17.4, "pulls in": 0.02, "drops in": 0.015, "transformer": [18, 4],
    "inrush": [45, 0.4], "sealed": [8, 0.3],
}

CABINETS = [
    {
        "name": "both at once: it chatters until they are up", "volts": 120, "source": [1.1, 0.4], "lamps": 40,
        "machine": MACHINE, "coil": COIL, "relay": None, "drives": [[0.6, 1.4], [0.4, 1.0]], "inertia": [0.02, 0.024], "end": 15,
    },
    {
        "name": "held back by a relay that the drop-out resets: it drops every time the second starts", "volts": 120,
        "source": [1.1, 0.4], "lamps": 40, "machine": MACHINE, "coil": {**COIL, "drop": 19.3, "pull": 20.5},
        "relay": {"delay": 2, "reset": 0.015}, "drives": [[0.3, 1.2], [0.4, 1.0]], "inertia": [0.02, 0.024], "end": 15,
    },
]

if __name__ == "__main__":
    print(json.dumps([{"given": c, "found": solve(c)} for c in CABINETS], indent=1))
