"""Live references for the hydraulics engine: NumPy and SciPy compute, the test compares.

    live_reference.py versions
    live_reference.py polyfit DEGREE AT N X... Y...     value at AT of the least-squares polynomial, and the residuals' sd
    live_reference.py pchip AT N X... Y...              value and slope of the shape-preserving interpolant
    live_reference.py curve_sd DEGREE AT SD N X...      standard deviation of the fitted value when every y has SD
    live_reference.py rig_row FLOW PS PD TORQUE INPUT SPEED RHO   L/min, bar, bar, N m, kW, r/min, kg/m3
    live_reference.py grade_chance HEAD_SCALE SAMPLES SEED        share of draws in which the cross of 1B is touched
    live_reference.py friction REYNOLDS ROUGHNESS       Colebrook's factor by Brent's method
    live_reference.py pumps H0 A STATIC K COUNT_PARALLEL COUNT_SERIES   operating point by Brent's method

Every command prints one line of numbers (or words, for versions).
"""

import sys

import numpy as np
import scipy
from scipy import interpolate, optimize

G = 9.80665


def xy(values):
    n = int(values[0])
    return np.array(values[1 : 1 + n]), np.array(values[1 + n : 1 + 2 * n])


def polyfit(degree, at, *rest):
    x, y = xy(rest)
    p = np.polynomial.Polynomial.fit(x, y, int(degree))
    return p(at), np.sqrt(np.sum((y - p(x)) ** 2) / (len(x) - degree - 1))


def pchip(at, *rest):
    p = interpolate.PchipInterpolator(*xy(rest))
    return p(at), p.derivative()(at)


def curve_sd(degree, at, sd, n, *x):
    vander = np.vander(np.array(x[: int(n)]) / max(x), int(degree) + 1)
    row = np.vander([at / max(x)], int(degree) + 1)[0]
    return (sd * np.sqrt(row @ np.linalg.inv(vander.T @ vander) @ row),)


def rig_row(flow, ps, pd, torque, power_in, speed, rho):
    head = (pd - ps) * 1e5 / (rho * G)
    hydraulic = rho * G * flow / 60000 * head
    shaft = torque * speed * np.pi / 30
    return head, hydraulic, shaft, hydraulic / shaft, hydraulic / (power_in * 1000)


def grade_chance(scale, samples, seed):
    """The pump, rig and instruments of tests/support/given_pump.h, written down again from their description."""
    random = np.random.default_rng(int(seed))
    n = int(samples)
    weight = 9806.65
    q = 0.0015 * np.arange(9)
    d_s, d_d = 0.080, 0.065

    def velocity_head(flow, bore):
        return (flow / (np.pi / 4 * bore**2)) ** 2 / (2 * G)

    head = scale * (40 - 1e5 * q**2)
    ps = np.full(9, -20e3)
    pd = ps + (head - 0.7 - velocity_head(q, d_d) + velocity_head(q, d_s)) * weight

    def flat(half, shape):
        return random.uniform(-1, 1, shape) * half

    flow = q * (1 + flat(0.01, (n, 1)))
    suction = ps + flat(500, (n, 1)) + flat(500, (n, 9))
    discharge = pd + flat(3000, (n, 1)) + flat(1000, (n, 9))
    ratio = 1 / (1 + flat(0.002, (n, 1)))
    heads = (discharge - suction) / weight + 0.7 + velocity_head(flow, d_d) - velocity_head(flow, d_s)
    flow, heads = flow * ratio, heads * ratio**2

    # quadratic through every draw's nine points
    powers = np.stack([np.ones_like(flow), flow * 100, (flow * 100) ** 2], axis=-1)
    c = np.linalg.solve(np.einsum("nij,nik->njk", powers, powers), np.einsum("nij,ni->nj", powers, heads)[..., None])[..., 0]

    def at(x):
        return c[:, 0] + c[:, 1] * 100 * x + c[:, 2] * (100 * x) ** 2

    qg, hg = 0.01, 30.0
    # the vertical bar is cut when the head at QG lies on it; the horizontal one when head less HG changes sign along it
    vertical = (at(qg) >= 0.97 * hg) & (at(qg) <= 1.03 * hg)
    horizontal = (at(0.95 * qg) >= hg) & (at(1.05 * qg) <= hg)
    return np.mean(vertical | horizontal), np.mean(at(qg)), np.std(at(qg), ddof=1)


def friction(reynolds, roughness):
    def gap(x):  # x = 1/sqrt(f)
        return x + 2 * np.log10(roughness / 3.7 + 2.51 * x / reynolds)

    return (1 / optimize.brentq(gap, 1, 100, xtol=1e-14, rtol=1e-15) ** 2,)


def pumps(h0, a, static, k, parallel, series):
    def gap(q):
        return series * (h0 - a * (q / parallel) ** 2) - static - k * q**2

    q = optimize.brentq(gap, 0, 1e3, xtol=1e-16, rtol=1e-15)
    return q, static + k * q**2


def main(arguments):
    command, rest = arguments[0], [float(v) for v in arguments[1:]]
    if command == "versions":
        print("NumPy", np.__version__, "SciPy", scipy.__version__)
        return
    numbers = globals()[command](*rest)
    print(*(f"{float(v):.12e}" for v in numbers))


if __name__ == "__main__":
    main(sys.argv[1:])
