"""The waveform problem in SciPy's DOP853, sampled 128 times a cycle, all samples of an arc at once.

The same equations in three forms, each the right hand side of the same program:
  matrix  vectors over the motors, inductance matrices, and the node voltages from a linear system, as one writes it
  scalar  folded by hand into scalar expressions of what NumPy hands out
  floats  the same after turning the state into a list of floats, which halves the time of every call

Prints: FORM TOLERANCE MS ms/run worst A EVALUATIONS: the least processor time of five runs, and the worst against the
scalar form at 1e-10.
"""
import time
from math import cos, pi, sqrt

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

W = 2 * pi * 60
K = 1 / 4.5
R1, X1, R2, X2, RA, XA, XM, A = 2.02 * K, 2.79 * K, 4.12 * K, 2.12 * K, 7.14 * K, 3.22 * K, 66.8 * K, 1.18
RC, XC, J = 3 * K, 14.5 * K, 0.0146 * 3
RS, LS, RT, LT = 0.24, 0.2 / W, 0.193 / 4, 0.0966 / 4 / W
L1, L2, LA, LM = (X1 + XM) / W, (X2 + XM) / W, XA / W / A**2 + XM / W, XM / W
DQ, DD, C = 1 / (L1 * L2 - LM * LM), 1 / (LA * L2 - LM * LM), 1 / (W * XC)
PEAK = sqrt(2) * 240 / W
KNEE, WIDTH, STEEP = 1.2 * PEAK, 0.04 * PEAK, 3000 * W / (0.2 * 240**2)
BELOW = (-KNEE + sqrt(KNEE * KNEE + WIDTH * WIDTH)) / 2


def core(f, s):
    x = abs(f) - KNEE
    bend = (x + sqrt(x * x + WIDTH * WIDTH)) / 2 - BELOW
    return s * f + (1 if f > 0 else -1) * (STEEP - s) * bend


def rms(s):
    return sqrt(np.mean([core(PEAK * np.sin(a), s) ** 2 for a in np.linspace(0, 2 * pi, 2000, endpoint=False)]))


SHALLOW = brentq(lambda s: rms(s) - 0.0026 * 240, 1e-6, STEEP)


def load(speed):
    return 4 + 0.0002 * speed * speed


def parts(y, o, carries):
    """Main, auxiliary (own turns) and torque of a motor, its flux rates, and its di/dt = alpha + beta v."""
    pm, pa, q, d, vc, w = y[o], y[o + 1], y[o + 2], y[o + 3], y[o + 4], y[o + 5]
    im, iq = (L2 * pm - LM * q) * DQ, (L1 * q - LM * pm) * DQ
    if carries:
        ia, idd = (L2 * pa - LM * d) * DD, (LA * d - LM * pa) * DD
    else:
        ia, idd = 0.0, d / L2
    rq, rd = 2 * w * d - R2 * iq, -2 * w * q - R2 * idd
    alpha, beta = (-L2 * R1 * im - LM * rq) * DQ, L2 * DQ
    if carries:
        alpha += (-L2 / A * (vc + (RA + RC) * ia / A) - LM * rd) * DD / A
        beta += L2 * DD / A**2
    return im, ia / A, 2 * (q * idd - d * iq), rq, rd, alpha, beta


def network(t, y, m):
    a, b, i, p = [0.0, 0.0], [0.0, 0.0], [0.0, 0.0], [None, None]
    for k in range(2):
        if m[k]["on"]:
            p[k] = parts(y, 6 * k, m[k]["carries"])
            a[k], b[k], i[k] = p[k][5], p[k][6], p[k][0] + p[k][1]
    f = y[12]
    x = abs(f) - KNEE
    slope = SHALLOW + (STEEP - SHALLOW) * (1 + x / sqrt(x * x + WIDTH * WIDTH)) / 2
    s = 1 / (1 + LT * (b[0] + b[1]))
    c, g = (RT * (i[1] - i[0]) + LT * (a[1] - a[0])) * s, (0.5 + LT * b[1]) * s
    alpha = 0.5 * (a[0] + b[0] * c) + 0.5 * (a[1] - b[1] * c)
    beta = 0.5 * b[0] * g + 0.5 * b[1] * (1 - g) + slope
    line = 0.5 * (i[0] + i[1]) + core(f, SHALLOW)
    v = (sqrt(2) * 240 * cos(W * t) - RS * line - LS * alpha) / (1 + LS * beta)
    return line, v, (c + g * v, v - c - g * v), p


def line(y, m):
    """Line current of many states at once: currents follow from fluxes alone."""
    i = [0.0, 0.0]
    for k in range(2):
        if m[k]["on"]:
            pm, pa, q, d = y[6 * k:6 * k + 4]
            i[k] = (L2 * pm - LM * q) * DQ + ((L2 * pa - LM * d) * DD / A if m[k]["carries"] else 0.0)
    x = np.abs(y[12]) - KNEE
    bend = (x + np.sqrt(x * x + WIDTH * WIDTH)) / 2 - BELOW
    return 0.5 * (i[0] + i[1]) + SHALLOW * y[12] + np.sign(y[12]) * (STEEP - SHALLOW) * bend


Q_AXIS = np.linalg.inv(np.array([[L1, LM], [LM, L2]]))
D_AXIS = np.linalg.inv(np.array([[LA, LM], [LM, L2]]))


def matrix_rates(t, y, m):
    on, carries, turning = (np.array([one[key] for one in m]) for key in ("on", "carries", "turning"))
    psi_m, psi_a, psi_q, psi_d, v_c, w = y[:12].reshape(2, 6).T
    i_m, i_q = Q_AXIS @ np.array([psi_m, psi_q])
    i_a, i_d = D_AXIS @ np.array([psi_a, psi_d])
    i_a, i_d = np.where(carries, i_a, 0), np.where(carries, i_d, psi_d / L2)
    r_q, r_d = 2 * w * psi_d - R2 * i_q, -2 * w * psi_q - R2 * i_d
    alpha = Q_AXIS[0] @ np.array([-R1 * i_m, r_q])
    alpha = alpha + carries * (D_AXIS[0] @ np.array([-(v_c + (RA + RC) * i_a / A) / A, r_d])) / A
    beta = on * (Q_AXIS[0, 0] + carries * D_AXIS[0, 0] / A**2)
    alpha, i = on * alpha, on * (i_m + i_a / A)
    slope = SHALLOW + (STEEP - SHALLOW) * (1 + (x := abs(y[12]) - KNEE) / np.hypot(x, WIDTH)) / 2
    line = 0.5 * i.sum() + core(y[12], SHALLOW)
    voltages = np.array([
        [1 + LS * slope, 0.5 * LS * beta[0], 0.5 * LS * beta[1]],
        [-0.5, 1 + LT * beta[0], -LT * beta[1]],
        [-1, 1, 1],
    ])
    driven = [
        sqrt(2) * 240 * cos(W * t) - RS * line - 0.5 * LS * alpha.sum(),
        RT * (i[1] - i[0]) + LT * (alpha[1] - alpha[0]),
        0,
    ]
    v, *legs = np.linalg.solve(voltages, driven)
    torque = 2 * (psi_q * i_d - psi_d * i_q)
    rates = [legs - R1 * i_m, carries * (legs - v_c - (RA + RC) * i_a / A) / A, r_q, r_d, carries * i_a / A / C]
    motors = np.array([*rates, turning * (torque - load(w)) / J]).T * on[:, None]
    return np.append(motors.ravel(), v)


def floats_rates(t, y, m):
    return scalar_rates(t, y.tolist(), m)


def scalar_rates(t, y, m):
    _, v, legs, p = network(t, y, m)
    out = [0.0] * 13
    for k in range(2):
        if p[k] is None:
            continue
        im, ia, torque, rq, rd, _, _ = p[k]
        o, vk = 6 * k, legs[k]
        out[o] = vk - R1 * im
        if m[k]["carries"]:
            out[o + 1] = (vk - y[o + 4] - (RA + RC) * ia) / A
            out[o + 4] = ia / C
        out[o + 2], out[o + 3] = rq, rd
        if m[k]["turning"]:
            out[o + 5] = (torque - load(y[o + 5])) / J
    out[12] = v
    return out


def run(tolerance, rates):
    evaluations = 0
    m = [dict(on=True, turning=False, closed=True, carries=True), dict(on=False, turning=False, closed=True, carries=True)]
    y, t, samples = np.zeros(13), 0.0, []
    b = 0.0026
    y[12] = (sqrt(2) / (1j * W) * 240 / (1 + (RS + 1j * LS * W) * -1j * b)).real
    grid = np.arange(1, 7681) / 7680
    while t < 1 - 1e-12:
        watch, what = [], []

        def event(f, direction, name):
            f.terminal, f.direction = True, direction
            watch.append(f)
            what.append(name)

        for k in range(2):
            o = 6 * k
            if not m[k]["on"]:
                continue
            if not m[k]["turning"]:
                event(lambda tt, yy, o=o, k=k: parts(yy, o, m[k]["carries"])[2] - 4, 1, (k, "turning"))
            if m[k]["closed"]:
                event(lambda tt, yy, o=o: yy[o + 5] - 0.75 * W / 2, 1, (k, "opens"))
            elif m[k]["carries"]:
                event(lambda tt, yy, o=o, k=k: parts(yy, o, True)[1], 0, (k, "leaves"))
        stop = 0.5 if not m[1]["on"] else 1.0
        r = solve_ivp(lambda tt, yy: rates(tt, yy, m), (t, stop), y, method="DOP853", dense_output=True,
                      events=watch, rtol=tolerance, atol=tolerance, max_step=1 / 240)
        evaluations += r.nfev
        t, y = r.t[-1], r.y[:, -1].copy()
        ahead = grid[len(samples):np.searchsorted(grid, t, side="right")]
        if len(ahead):
            samples.extend(line(r.sol(ahead), m))
        if not m[1]["on"] and t >= 0.5:
            m[1]["on"] = True
        for (k, name), times in zip(what, r.t_events):
            if len(times) == 0:
                continue
            if name == "turning":
                m[k]["turning"] = True
            elif name == "opens":
                m[k]["closed"] = False
            else:
                m[k]["carries"] = False
    return np.array(samples), evaluations


if __name__ == "__main__":
    fine, _ = run(1e-10, scalar_rates)
    for form in (matrix_rates, scalar_rates, floats_rates):
        for tolerance in (1e-4, 1e-5, 1e-6):
            ms = np.inf
            for _ in range(5):
                start = time.process_time()
                found, evaluations = run(tolerance, form)
                ms = min(ms, 1e3 * (time.process_time() - start))
            worst = np.abs(found - fine).max()
            print(f"{form.__name__[:6]} {tolerance:g} {ms:.1f} ms/run worst {worst:.2e} A {evaluations}")
    print("SAMPLES", len(fine), f"{np.abs(fine).max():.9g}", f"{fine[-1]:.9g}")
