"""Waveforms of a two-motor start and of a switch-on, from Kirchhoff's equations as they stand.

States are winding currents, capacitor voltages, shaft speeds and the core's flux. Every derivative and node
voltage is an unknown of one dense linear system, solved at each evaluation; nothing is folded or eliminated.

    python3 waves.py > data.json
"""
import json

import numpy as np
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

EXACT = dict(method="DOP853", rtol=1e-10, atol=1e-12, max_step=1 / 600)
W = 2 * np.pi * 60


class Core:
    """i = f/L0 + (1/La - 1/L0) B(|f| - knee), two slopes joined by a hyperbola, odd in f."""

    def __init__(self, volts, rating, exciting_A):
        self.peak = np.sqrt(2) * volts / W
        self.knee = 1.2 * self.peak
        self.width = 0.04 * self.peak
        self.steep = 1 / (0.2 * volts**2 / (rating * W))
        self.shallow = 1.0
        self.shallow = brentq(lambda s: self.rms(s) - exciting_A, 1e-6 * self.steep, self.steep)

    def bend(self, x):
        return (x + np.sqrt(x * x + self.width**2)) / 2

    def current(self, f, shallow=None):
        s = self.shallow if shallow is None else shallow
        over = self.bend(abs(f) - self.knee) - self.bend(-self.knee)
        return s * f + np.sign(f) * (self.steep - s) * over

    def slope(self, f):
        x = abs(f) - self.knee
        return self.shallow + (self.steep - self.shallow) * (1 + x / np.sqrt(x * x + self.width**2)) / 2

    def rms(self, shallow):
        square = lambda a: self.current(self.peak * np.sin(a), shallow) ** 2
        return np.sqrt(quad(square, 0, np.pi / 2, epsabs=1e-12, epsrel=1e-12)[0] / (np.pi / 2))


class Tableau:
    """Rows of one linear system in named unknowns."""

    def __init__(self, names):
        self.at = {name: k for k, name in enumerate(names)}
        self.rows, self.right = [], []

    def row(self, right, **coefficients):
        row = np.zeros(len(self.at))
        for name, value in coefficients.items():
            row[self.at[name]] += value
        self.rows.append(row)
        self.right.append(right)

    def solve(self):
        found = np.linalg.solve(np.array(self.rows), np.array(self.right))
        return {name: found[k] for name, k in self.at.items()}


class Motor:
    """Main winding on the q axis, auxiliary with `a` times its turns on d, cage on both."""

    def __init__(self, g):
        m = g["machine"]
        self.r1, self.x1 = m["main"]
        self.r2, self.x2 = m["rotor"]
        self.ra, self.xa = m["auxiliary"]
        self.a, self.xm, self.pairs = m["turnsRatio"], m["magnetising"], m["poles"] / 2
        self.rc, self.xc = m["startCapacitor"]
        self.opens = m["switchOpens"] * W / self.pairs
        self.J, self.rest_Nm, self.full_Nm = g["inertia"], g["atRest"], g["atFullSpeed"]
        self.rw, self.xw = g["wire"]

    def fluxes(self, x):
        im, ia, iq, idd = x[:4]
        lm, l2 = self.xm / W, (self.xm + self.x2) / W
        return lm * im + l2 * iq, lm * self.a * ia + l2 * idd

    def torque(self, x):
        q, d = self.fluxes(x)
        return self.pairs * (q * x[3] - d * x[2])

    def load(self, speed):
        return self.rest_Nm + (self.full_Nm - self.rest_Nm) * (speed * self.pairs / W) ** 2

    def rows(self, t, k, x, v, carries):
        """Four windings of motor k; `v` names the node behind its wire."""
        im, ia, iq, idd, vc, speed = x
        lm, l2, we = self.xm / W, (self.xm + self.x2) / W, self.pairs * speed
        n = lambda what: f"{what}{k}"
        wire = {n("im"): self.xw / W, n("ia"): self.xw / W}
        q, d = self.fluxes(x)
        drop = self.rw * (im + ia)
        main = dict(wire)
        main[n("im")] += self.x1 / W + lm
        t.row(-self.r1 * im - drop, **main, **{n("iq"): lm, v: -1})
        if carries:
            auxiliary = dict(wire)
            auxiliary[n("ia")] += self.xa / W + self.a**2 * lm
            t.row(-(self.ra + self.rc) * ia - vc - drop, **auxiliary, **{n("id"): self.a * lm, v: -1})
        else:
            t.row(0, **{n("ia"): 1})
        t.row(-self.r2 * iq + we * d, **{n("iq"): l2, n("im"): lm})
        t.row(-self.r2 * idd - we * q, **{n("id"): l2, n("ia"): self.a * lm})


def two_motors(g):
    """Supply, midpoint transformer with a saturable core, a motor behind a wire on each leg, a lamp on the second."""
    motors = [Motor(m) for m in g["motors"]]
    (rs, xs), (rt, xt) = g["supply"]["z"], g["transformer"]["z"]
    n1, n2 = g["transformer"]["windings"]
    core = Core(n1 + n2, g["transformer"]["rating"], g["transformer"]["exciting"])
    rl, xl = g["lamp"]
    starts = [m["connects"] for m in g["motors"]]
    names = [f"{w}{k}" for k in range(2) for w in ("im", "ia", "iq", "id")] + ["il", "i", "V", "V1", "V2"]

    def mode():
        return [dict(on=s <= 0, turning=False, closed=True, carries=True) for s in starts]

    def currents(y, m):
        x = [y[0:6], y[6:12]]
        legs = [x[k][0] + x[k][1] if m[k]["on"] else 0.0 for k in range(2)]
        legs[1] += y[12]
        through = (n1 * legs[0] + n2 * legs[1]) / (n1 + n2)
        return x, legs, through + core.current(y[13])

    def solved(t, y, m):
        x, legs, line = currents(y, m)
        s = Tableau(names)
        for k, motor in enumerate(motors):
            if m[k]["on"]:
                motor.rows(s, k, x[k], ("V1", "V2")[k], m[k]["carries"])
            else:
                for w in ("im", "ia", "iq", "id"):
                    s.row(0, **{f"{w}{k}": 1})
        s.row(-rl * y[12], il=xl / W, V2=-1)
        # Rates of leg and line currents are sums; the core draws f'(flux) V beside the ampere-turns.
        first, second = n1 / (n1 + n2), n2 / (n1 + n2)
        s.row(0, i=1, V=-core.slope(y[13]), im0=-first, ia0=-first, im1=-second, ia1=-second, il=-second)
        e = np.sqrt(2) * g["supply"]["volts"] * np.cos(W * t + g["angle"])
        s.row(e - rs * line, V=1, i=xs / W)
        s.row(0, V1=1, V2=1, V=-1)
        # First winding carries Iw = I - I1 = second (I2 - I1).
        iw = second * (legs[1] - legs[0])
        lw = second * xt / W
        s.row(rt * iw, V1=1, V2=-n1 / n2, im0=lw, ia0=lw, im1=-lw, ia1=-lw, il=-lw)
        return s.solve(), x, line

    def rates(t, y, m):
        d, x, _ = solved(t, y, m)
        out = np.zeros(14)
        for k, motor in enumerate(motors):
            o = 6 * k
            out[o : o + 4] = [d[f"{w}{k}"] for w in ("im", "ia", "iq", "id")]
            out[o + 4] = x[k][1] * W * motor.xc if m[k]["carries"] else 0
            if m[k]["turning"]:
                out[o + 5] = (motor.torque(x[k]) - motor.load(x[k][5])) / motor.J
        out[12], out[13] = d["il"], d["V"]
        return out

    def steady():
        """Before 0 s only lamp and core are on; the lamp's phasor, then the flux of what is left."""
        second = n2 / (n1 + n2)
        zs, zt, zl = rs + 1j * xs, rt + 1j * xt, rl + 1j * xl
        b = g["transformer"]["exciting"] / (n1 + n2)
        # Lamp alone on the second leg: V2 = second V - second^2 zt I2, line = second I2 - j b V.
        i2_per_V = second / (zl + second**2 * zt)
        V = g["supply"]["volts"] / (1 + zs * (second * i2_per_V - 1j * b))
        turn = np.exp(1j * g["angle"])
        return (np.sqrt(2) * i2_per_V * V * turn).real, (np.sqrt(2) * V / (1j * W) * turn).real

    y = np.zeros(14)
    y[12], y[13] = steady()
    m, t, end = mode(), 0.0, g["end"]
    events, line_peak, caps, up = [], 0.0, [0.0, 0.0], [None, None]
    while t < end:
        watch, names_of = [], []

        def event(f, direction, name):
            f.terminal, f.direction = True, direction
            watch.append(f)
            names_of.append(name)

        for k, motor in enumerate(motors):
            if not m[k]["on"]:
                continue
            x = lambda yy, k=k: yy[6 * k : 6 * k + 6]
            if not m[k]["turning"]:
                event(lambda tt, yy, mo=motor, x=x: mo.torque(x(yy)) - mo.rest_Nm, 1, (k, "breaks away"))
            else:
                event(lambda tt, yy, x=x: x(yy)[5] + 1e-9, -1, (k, "comes to rest"))
            if m[k]["closed"]:
                event(lambda tt, yy, mo=motor, x=x: x(yy)[5] - mo.opens, 1, (k, "start switch opens"))
            elif m[k]["carries"]:
                event(lambda tt, yy, x=x: x(yy)[1], 0, (k, "auxiliary current passes zero"))
            level = 0.9 * W / motor.pairs
            if up[k] is None:
                event(lambda tt, yy, x=x, level=level: x(yy)[5] - level, 1, (k, "up"))
        stop = min([end] + [s for k, s in enumerate(starts) if not m[k]["on"] and s > t])
        r = solve_ivp(lambda tt, yy: rates(tt, yy, m), (t, stop), y, events=watch, dense_output=True, **EXACT)
        for tt in np.linspace(t, r.t[-1], max(2, int((r.t[-1] - t) * 60_000))):
            yy = r.sol(tt)
            line_peak = max(line_peak, abs(currents(yy, m)[2]))
            for k in range(2):
                caps[k] = max(caps[k], abs(yy[6 * k + 4]))
        t, y = r.t[-1], r.y[:, -1].copy()
        for k in range(2):
            if not m[k]["on"] and starts[k] <= t:
                m[k]["on"] = True
        for (k, what), times in zip(names_of, r.t_events):
            if len(times) == 0:
                continue
            if what == "up":
                up[k] = t
                continue
            events.append([f"motor {k + 1}: {what}", t])
            if what == "breaks away":
                m[k]["turning"] = True
            elif what == "comes to rest":
                m[k]["turning"], y[6 * k + 5] = False, 0
            elif what == "start switch opens":
                m[k]["closed"] = False
            else:
                m[k]["carries"], y[6 * k + 1] = False, 0
    return dict(events=events, linePeak_A=line_peak, capacitorPeaks_V=caps, at90_s=up,
                speeds_radps=[y[5], y[11]])


def switch_on(g):
    """Supply, transformer with residual flux, a lamp on its second winding."""
    (rs, xs), (rt, xt), (rl, xl) = g["supply"]["z"], g["transformer"]["z"], g["lamp"]
    n = g["transformer"]["windings"][1] / g["transformer"]["windings"][0]
    core = Core(g["transformer"]["windings"][0], g["transformer"]["rating"], g["transformer"]["exciting"])

    def rates(t, y):
        flux, il = y
        line = n * il + core.current(flux)
        s = Tableau(["di", "dl", "V"])
        e = np.sqrt(2) * g["supply"]["volts"] * np.cos(W * t + g["angle"])
        s.row(e - rs * line, V=1, di=xs / W)
        s.row(0, di=1, dl=-n, V=-core.slope(flux))
        # Second winding: n (V - zt n il) feeds the lamp.
        s.row(-rl * il - n * n * rt * il, dl=xl / W + n * n * xt / W, V=-n)
        d = s.solve()
        return [d["V"], d["dl"]]

    y0 = [g["residual"] * core.peak, 0.0]
    r = solve_ivp(rates, (0, g["end"]), y0, dense_output=True, method="DOP853", rtol=1e-11, atol=1e-13,
                  max_step=1 / 2000)
    line = lambda t: n * r.sol(t)[1] + core.current(r.sol(t)[0])
    peaks = []
    for cycle in range(int(round(g["end"] * 60))):
        ts = np.linspace(cycle / 60, (cycle + 1) / 60, 20_001)
        ys = r.sol(ts)
        at = n * ys[1] + np.array([core.current(f) for f in ys[0]])
        k = int(np.argmax(np.abs(at)))
        peaks.append([float(ts[k]), float(at[k])])
    return dict(peaks=peaks, endFlux_Vs=float(r.y[0, -1]), exciting_A=core.rms(core.shallow))


K = 1 / 4.5
MACHINE = dict(poles=4, main=[2.02 * K, 2.79 * K], rotor=[4.12 * K, 2.12 * K], auxiliary=[7.14 * K, 3.22 * K],
               turnsRatio=1.18, magnetising=66.8 * K, startCapacitor=[3 * K, 14.5 * K], switchOpens=0.75)
START = dict(
    name="two motors on opposite legs, the second half a second later", end=1.3, angle=0.7,
    supply=dict(volts=240, z=[0.2, 0.15]),
    transformer=dict(windings=[132, 108], rating=4000, exciting=0.5, z=[0.15, 0.12]),
    lamp=[20.0, 12.0],
    motors=[
        dict(machine=MACHINE, inertia=0.03, atRest=3, atFullSpeed=6, wire=[0.06, 0.03], connects=0),
        dict(machine={**MACHINE, "startCapacitor": [1.5 * K, 17 * K], "turnsRatio": 1.3}, inertia=0.025, atRest=2,
             atFullSpeed=5, wire=[0.1, 0.02], connects=0.5),
    ],
)
SWITCH = dict(
    name="a 3 kVA transformer with residual flux, a lamp on it", end=0.1, angle=1.3, residual=-0.6,
    supply=dict(volts=240, z=[0.25, 0.2]),
    transformer=dict(windings=[240, 120], rating=3000, exciting=0.4, z=[0.3, 0.2]),
    lamp=[20.0, 12.0],
)

if __name__ == "__main__":
    print(json.dumps([dict(given=START, found=two_motors(START)), dict(given=SWITCH, found=switch_on(SWITCH))], indent=1))
