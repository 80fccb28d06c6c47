"""Two motors on a generator or an inverter, solved by SciPy from equations written down here and nowhere else.

python3 sets.py > data.json          python3 sets.py salient      the table of README.md

The generator is written as its windings: stator on d and q, a field winding on d and an equal one, short-circuited,
on q. Its states are the flux linkages of these two, not a voltage behind a reactance; the transient
reactance and the open-circuit time constant come out of its inductances. Stretches between sudden changes are
integrated by DOP853 at rtol 1e-11, atol 1e-13, and joined at its located events.
"""
import json
import sys
import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

M = {"poles": 4, "r1": 1.9, "x1": 2.4, "ra": 6.4, "xa": 2.9, "r2": 3.2, "x2": 2.0, "xm": 58.0, "a": 1.2,
     "start": [2.5, 15.0], "switch": [0.75, 0.45]}


def motor(m, omega, closed, ws):
    """Admittance of a motor and its torque per volt squared, from the voltages that each field induces."""
    s = 1 - omega / ws
    gap = [1 / (2 / (1j * m["xm"]) + 2 / (m["r2"] / x + 1j * m["x2"])) for x in (s, 2 - s)]
    # Unknowns: main and auxiliary current. A field's emf in main is Z (Im -+ j a Ia); in aux +-j a times that.
    zm, za = m["r1"] + 1j * m["x1"], m["ra"] + 1j * m["xa"] + m["start"][0] - 1j * m["start"][1]
    a = m["a"]
    if closed:
        z = np.array([[zm, 0], [0, za]], complex)
        for sign, zz in ((1, gap[0]), (-1, gap[1])):
            turns = np.array([1, -sign * 1j * a])
            z += zz * np.outer(np.conj(turns), turns)
        im, ia = np.linalg.solve(z, [1, 1])
    else:
        im, ia = 1 / (zm + gap[0] + gap[1]), 0
    power = [abs(im - sign * 1j * a * ia) ** 2 * zz.real for sign, zz in ((1, gap[0]), (-1, gap[1]))]
    return im + ia, (power[0] - power[1]) / ws


def bus(c, y, terminal):
    """Voltage at the bus behind the lead for a voltage at the terminals; lamps hold impedance or current."""
    lead, lamps = complex(*c["lead"]), c["lamps_W"]
    g0 = lamps / c["volts"] ** 2
    if c["holds"] == "impedance":
        return terminal / (1 + lead * (y + g0)), g0

    def off(level):
        g = g0 / max(0.7, level)
        return abs(terminal / (1 + lead * (y + g))) / c["volts"] - level

    level = brentq(off, 0, 2, xtol=1e-15, rtol=1e-14)
    g = g0 / max(0.7, level)
    return terminal / (1 + lead * (y + g)), g


def drawn(c, y, terminal):
    v, g = bus(c, y, terminal)
    return v * (y + g), v


class Generator:
    """Per unit of nothing: ohms, volts and webers times the angular frequency. Xmd^2/Xf = Xd - X'."""

    def __init__(self, g, volts):
        self.g, self.volts = g, volts
        self.xmd = 0.9 * g["xs"]
        self.xf = self.xmd ** 2 / (g["xs"] - g["x1"])
        self.rf = self.xf / g["t0"]  # with fluxes as omega psi: d(omega psi)/dt = omega v - (rf omega) i, T = Lf/Rf
        r, x1, xs = g["r"], g["x1"], g["xs"]
        slow = 3 / g["recovery"]
        # (1 + a)^2 = 4 T r (C + a) by the roots of a polynomial
        roots = np.roots([1, 2 - 4 * g["t0"] * slow, 1 - 4 * g["t0"] * slow * g["ceiling"]])
        self.gain = max(1.0, max(roots.real))
        self.memory = self.gain / (slow * (g["ceiling"] + self.gain))

    def terminal(self, c, y, fluxes):
        """Solves stator and network: (vq, vd, iq, id) from the field's and the damper's flux linkage."""
        ff, fq = fluxes
        xf, xm, xs, r = self.xf, self.xmd, self.g["xs"], self.g["r"]
        v, i = None, None
        admit = drawn(c, y, 1.0)[0]
        # unknown iq, id; field current (ff + xm id)/xf, damper (fq + xm iq)/xf
        # vq = xm if - xs id - r iq ; vd = xs iq - xm ikq - r id ; i = admit v with q real and d at -j
        gq, bq = admit.real, admit.imag
        # v = vq - j vd, i = iq - j id: iq = g vq + b vd, id = g vd - b vq
        a = np.array([
            [1, 0, r, xs - xm * xm / xf],
            [0, 1, -(xs - xm * xm / xf), r],
            [-gq, -bq, 1, 0],
            [bq, -gq, 0, 1],
        ])
        return np.linalg.solve(a, [xm * ff / xf, -xm * fq / xf, 0, 0])

    def field_of(self, terminal, x):
        return x + self.gain * (self.volts - np.hypot(terminal[0], terminal[1]))

    def rates(self, terminal, state):
        ff, fq, x = state
        _, _, iq, id_ = terminal
        field = min(max(self.field_of(terminal, x), 0), self.g["ceiling"] * self.volts)
        i_f, i_k = (ff + self.xmd * id_) / self.xf, (fq + self.xmd * iq) / self.xf
        # a field current of field/xmd gives that open-circuit voltage
        return [self.rf * (field / self.xmd - i_f), -self.rf * i_k, (field - x) / self.memory]

    def begin(self, c):
        """Steady on what is live before: found by root search, not by the closed form."""
        def run(field):
            admit = drawn(c, 0, 1.0)[0]
            current = field * admit / (1 + (self.g["r"] + 1j * self.g["xs"]) * admit)
            v = current / admit if admit else field
            return abs(v) - self.volts, current
        field = brentq(lambda f: run(f)[0], 0, self.g["ceiling"] * self.volts, xtol=1e-13, rtol=1e-14)
        i = run(field)[1]
        return [self.xf * field / self.xmd + self.xmd * i.imag, -self.xmd * i.real, field]


class Inverter:
    def __init__(self, g, volts):
        self.g, self.volts, self.stage, self.used, self.since, self.limiting = g, volts, "within", 0.0, 0.0, False

    def limit(self):
        return self.g["continuous"] if self.stage == "held" else self.g["limit"]

    def terminal(self, c, y, _):
        if self.stage == "down":
            return np.array([0.0, 0, 0, 0])
        i, _ = drawn(c, y, self.volts)
        v = self.volts
        if abs(i) > self.limit():
            v = brentq(lambda u: abs(drawn(c, y, u)[0]) - self.limit(), 0, self.volts, xtol=1e-14, rtol=1e-14)
            i, _ = drawn(c, y, v)
        return np.array([v, 0, i.real, -i.imag])

    def asked(self, c, y):
        return abs(drawn(c, y, self.volts)[0])


def solve(c):
    ws = 4 * np.pi * 60 / M["poles"]
    source = Generator(c["generator"], c["volts"]) if "generator" in c else Inverter(c["inverter"], c["volts"])
    is_set = isinstance(source, Generator)
    on, turning, closed = [s <= 0 for s in c["starts"]], [False] * 2, [True] * 2
    stage = "regulated"
    k = c["size"]
    machine = {**M, **{key: M[key] / k for key in ("r1", "x1", "ra", "xa", "r2", "x2", "xm")},
               "start": [z / k for z in M["start"]]}

    def electric(y):
        found = [motor(machine, y[j], closed[j], ws) if on[j] else (0, 0) for j in (0, 1)]
        terminal = source.terminal(c, sum(g for g, _ in found), y[2:4])
        v = complex(terminal[0], -terminal[1])
        _, at_bus = drawn(c, sum(g for g, _ in found), v)
        torque = [abs(at_bus) ** 2 * t for _, t in found]
        return terminal, at_bus, torque, found

    def load(j, omega):
        d = c["drives"][j]
        return d["rest"] + (d["full"] - d["rest"]) * (omega / ws) ** 2

    def rates(_, y):
        terminal, _, torque, _ = electric(y)
        shafts = [(torque[j] - load(j, y[j])) / c["inertia"][j] if turning[j] else 0 for j in (0, 1)]
        return [*shafts, *(source.rates(terminal, y[2:]) if is_set else [])]

    def asked(y):
        return source.asked(c, sum(motor(machine, y[j], closed[j], ws)[0] for j in (0, 1) if on[j]))

    def watched():
        list_ = []
        for j in (0, 1):
            level = M["switch"][0 if closed[j] else 1] * ws
            list_.append((f"switch {j + 1}", lambda t, y, j=j, level=level: y[j] - level, 1 if closed[j] else -1))
            if turning[j]:
                list_.append((f"rest {j + 1}", lambda t, y, j=j: y[j] if t > begun else 1, -1))
        if is_set:
            top = c["generator"]["ceiling"] * c["volts"]
            wanted = lambda y: source.field_of(electric(y)[0], y[4])
            if stage == "regulated":
                list_ += [("ceiling", lambda t, y: wanted(y) - top, 1), ("shut", lambda t, y: wanted(y), -1)]
            elif stage == "ceiling":
                list_.append(("leaves", lambda t, y: wanted(y) - top, -1))
            else:
                list_.append(("returns", lambda t, y: wanted(y), 1))
        elif source.stage != "down":
            continuous = source.g["continuous"]
            list_.append(("surges" if source.stage == "within" else "eases",
                          lambda t, y: asked(y) - continuous, 1 if source.stage == "within" else -1))
            if source.stage == "surging":
                list_.append(("leaves" if source.limiting else "limits",
                              lambda t, y: asked(y) - source.g["limit"], -1 if source.limiting else 1))
        return list_

    def timers():
        known = [s for s in c["starts"] if s > t]
        if not is_set and source.stage == "surging":
            known.append(source.since + source.g["surge"] - source.used)
        if not is_set and source.stage == "held":
            known.append(source.since + source.g["stops"])
        return min(known + [c["end"]])

    def happen(name):
        nonlocal stage
        events.append([name, t])
        what, j = (name.split() + ["1"])[:2]
        j = int(j) - 1
        if what == "switch":
            closed[j] = not closed[j]
        elif what == "rest":
            turning[j], y[j] = False, 0.0
        elif what == "break":
            turning[j] = True
        elif is_set:
            stage = {"ceiling": "ceiling", "shut": "shut", "leaves": "regulated", "returns": "regulated"}[what]
        elif what in ("limits", "leaves"):
            source.limiting = what == "limits"
        else:
            used = {"within": max(0, source.used - (t - source.since)), "surging": source.used + (t - source.since),
                    "held": source.g["surge"]}[source.stage]
            source.used, source.since, source.limiting = min(used, source.g["surge"]), t, False
            source.stage = {"surges": "surging", "eases": "within", "up": "held", "down": "down"}[what]

    t, begun, events, arcs = 0.0, 0.0, [], []
    y = np.array([0.0, 0.0, *(source.begin(c) if is_set else [])])
    lowest = [c["volts"], c["volts"]]
    while t < c["end"]:
        changed = True
        while changed:
            changed = False
            for j in (0, 1):
                if on[j] and not turning[j] and electric(y)[2][j] > c["drives"][j]["rest"]:
                    happen(f"break {j + 1}")
                    changed = True
            for name, g, direction in watched():
                if not name.startswith(("rest", "switch")) and direction * g(t, y) > 1e-7:
                    happen(name)
                    changed = True
                    break
        here = watched()
        functions = []
        for _, g, direction in here:
            g.terminal, g.direction = True, direction
            functions.append(g)
        until, begun = timers(), t
        s = solve_ivp(rates, (t, until), y, "DOP853", events=functions, rtol=1e-11, atol=1e-13, dense_output=True)
        frozen = (list(on), list(turning), list(closed), stage, None if is_set else (source.stage, source.limiting))
        arcs.append((t, s.t[-1], s.sol, frozen))
        for at in np.linspace(t, s.t[-1], 3000):
            terminal, at_bus, _, _ = electric(s.sol(at))
            lowest = [min(a, b) for a, b in zip(lowest, [np.hypot(terminal[0], terminal[1]), abs(at_bus)])]
        t, y = float(s.t[-1]), s.y[:, -1].copy()
        if s.status == 1:
            for (name, _, _), times in zip(here, s.t_events):
                if len(times):
                    happen(name)
        else:
            for j in (0, 1):
                on[j] = on[j] or c["starts"][j] <= t
            if not is_set and t < c["end"]:
                if source.stage == "surging" and abs(source.since + source.g["surge"] - source.used - t) < 1e-9:
                    happen("up")
                elif source.stage == "held" and abs(source.since + source.g["stops"] - t) < 1e-9:
                    happen("down")

    def whole(time):
        nonlocal stage
        for a, b, sol, frozen in arcs:
            if a <= time <= b:
                on[:], turning[:], closed[:], stage = frozen[:4]
                if not is_set:
                    source.stage, source.limiting = frozen[4]
                state = sol(time)
                terminal, at_bus, _, _ = electric(state)
                return {"t": time, "terminal_V": np.hypot(terminal[0], terminal[1]), "bus_V": abs(at_bus),
                        "line_A": np.hypot(terminal[2], terminal[3]), "speeds_radps": list(state[:2])}
        raise ValueError(time)

    return {"events": events, "lowest_V": lowest, "samples": [whole(x) for x in c["samples"]], "end": whole(c["end"])}


DRIVES = [{"rest": 1.0, "full": 5.0}, {"rest": 0.6, "full": 4.2}]
COMMON = {"volts": 120, "lead": [0.05, 0.02], "lamps_W": 400, "holds": "impedance", "size": 3.0,
          "drives": DRIVES, "inertia": [0.05, 0.06]}
SET = {"r": 0.06, "x1": 0.5, "xs": 3.6, "t0": 0.6, "ceiling": 5, "recovery": 2.5}
STORE = {"continuous": 33, "limit": 66, "surge": 5, "stops": 1}
CABINETS = [
    {"name": "generator, the second two and a half seconds later", **COMMON, "generator": SET, "starts": [0, 2.5],
     "end": 8, "samples": [0.05, 0.2, 0.6, 1.5, 2.4, 2.55, 2.8, 3.5, 5]},
    {"name": "generator with a quick regulator and a low ceiling, both together", **COMMON,
     "generator": {**SET, "recovery": 0.4, "ceiling": 3.5}, "starts": [0, 0],
     "end": 6, "samples": [0.05, 0.2, 0.6, 1.0, 2, 4]},
    {"name": "inverter, the second three seconds later, lamps that hold their current", **COMMON,
     "holds": "current", "inverter": STORE, "starts": [0, 3], "end": 8, "samples": [0.05, 0.3, 0.8, 2.5, 3.1, 3.5, 5]},
    {"name": "inverter that shuts down before they are up", **COMMON, "inverter": {**STORE, "surge": 0.9, "stops": 0.4},
     "starts": [0, 0], "end": 6, "samples": [0.05, 0.3, 0.85, 1.0, 1.2, 2, 4]},
]


def salient():
    """Terminal voltage after a step: a round rotor against salient poles with a damper, no regulator."""
    print("load step      t       round   salient")
    volts, base = 240.0, 8.0
    r, x1, xd, t0 = 0.03 * base, 0.25 * base, 1.8 * base, 0.6
    for size, factor in ((1, 1.0), (1, 0.8), (2, 0.7), (2, 0.5)):
        y = size / base * (factor - 1j * np.sqrt(1 - factor ** 2))
        rows = {}
        for name, xq, tq in (("round", xd, t0), ("salient", 0.6 * xd, 0.06)):
            def rates(_, e, xq=xq, tq=tq):
                i = complex(*e) * y / (1 + (r + 1j * x1) * y)
                return [(volts - e[0] + (xd - x1) * i.imag) / t0, (-e[1] - (xq - x1) * i.real) / tq]
            s = solve_ivp(rates, (0, 3), [volts, 0], rtol=1e-9, dense_output=True)
            rows[name] = [abs(complex(*s.sol(t)) / (1 + (r + 1j * x1) * y)) for t in (0, 0.1, 0.3, 3)]
        for k, t in enumerate((0, 0.1, 0.3, 3)):
            print(f"{size} at {factor:.1f}   {t:5.1f} s {rows['round'][k]:8.1f} {rows['salient'][k]:8.1f}")


if __name__ == "__main__":
    if sys.argv[1:] == ["salient"]:
        salient()
    else:
        print(json.dumps([{"given": c, "found": solve(c)} for c in CABINETS], indent=1))
