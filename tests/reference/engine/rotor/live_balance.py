"""Live references for balancing: NumPy and SciPy compute, the test compares.

    live_balance.py versions
    live_balance.py solve AMPLITUDE_U PHASE_U RUNS SENSORS PLANES NUMBER...
        for each run: amount and angle (radians) of what is fitted in each plane, amplitude and phase of each sensor;
        uncertainties of 0: not stated. Prints the unbalance of the last run's state (re, im of each plane), then its
        covariance row by row when it can be stated.
    live_balance.py drill axial|radial RADIUS DIAMETER POINT DENSITY DEPTH...
    live_balance.py pad RADIUS LENGTH WIDTH DENSITY DEPTH
    live_balance.py key DENSITY WIDTH BOTTOM JOINT TOP KEY SEAT HUB
"""

import sys

import numpy as np
import scipy
from scipy import integrate, optimize


def numbers(texts):
    return [float(t) for t in texts]


def polar(amount, angle):
    return amount * np.exp(1j * angle)


def parse(texts):
    amplitude_u, phase_u = numbers(texts[:2])
    runs, sensors, planes = (int(t) for t in texts[2:5])
    values = np.array(numbers(texts[5:])).reshape(runs, 2 * (planes + sensors))
    fitted = polar(values[:, 0:2 * planes:2], values[:, 1:2 * planes:2])
    amplitude = values[:, 2 * planes::2]
    phase = values[:, 2 * planes + 1::2]
    return amplitude_u, phase_u, fitted, amplitude, phase


def fit_sensor(fitted, amplitude, phase, amplitude_u, phase_u):
    """Parameters (v0, alpha...) as complex, and their real covariance, by a trust-region fit of the residuals."""
    runs, planes = fitted.shape
    v = polar(amplitude, phase)
    along = np.exp(1j * phase)
    stated = amplitude_u > 0
    wa = 1 / amplitude_u if stated else 1.0
    wt = 1 / np.maximum(amplitude_u, amplitude * phase_u) if stated else np.ones(runs)
    scale = np.abs(fitted).max(axis=0)

    def residual(p):
        c = p[0::2] + 1j * p[1::2]
        off = (v - c[0] - fitted @ (c[1:] / scale)) / along
        return np.concatenate([wa * off.real, wt * off.imag])

    best = optimize.least_squares(residual, np.zeros(2 + 2 * planes), xtol=1e-15, ftol=1e-15, gtol=1e-15)
    stretch = np.repeat(np.concatenate([[1.0], 1 / scale]), 2)
    c = (best.x[0::2] + 1j * best.x[1::2]) / np.concatenate([[1.0], scale])
    dof = 2 * runs - len(best.x)
    s2 = 2 * best.cost / dof if dof else None
    if stated:
        factor = max(1.0, s2) if dof else 1.0
    else:
        factor = s2
    covariance = None
    if factor is not None:
        covariance = factor * np.linalg.inv(best.jac.T @ best.jac) * np.outer(stretch, stretch)
    return c, covariance


def unbalance(parameters, weights):
    alpha = np.array([w * c[1:] for c, w in zip(parameters, weights)])
    base = np.array([w * c[0] for c, w in zip(parameters, weights)])
    return np.linalg.lstsq(alpha, base, rcond=None)[0]


def flat(z):
    return np.column_stack([z.real, z.imag]).ravel()


def solve(texts):
    amplitude_u, phase_u, fitted, amplitude, phase = parse(texts)
    fits = [fit_sensor(fitted, a, p, amplitude_u, phase_u) for a, p in zip(amplitude.T, phase.T)]
    weights = 1 / amplitude.max(axis=0)
    parameters = [c for c, _ in fits]
    u = unbalance(parameters, weights)
    out = list(flat(u + fitted[-1]))
    if all(covariance is not None for _, covariance in fits):
        total = np.zeros((2 * len(u), 2 * len(u)))
        for s, (c, covariance) in enumerate(fits):
            columns = []
            for k in range(2 * len(c)):
                step = 1e-6 * abs(c[k // 2]) * (1 if k % 2 == 0 else 1j)
                ends = []
                for sign in (1, -1):
                    moved = [p.copy() for p in parameters]
                    moved[s][k // 2] += sign * step
                    ends.append(flat(unbalance(moved, weights)))
                columns.append((ends[0] - ends[1]) / (2 * abs(step)))
            j = np.array(columns).T
            total += j @ covariance @ j.T
        out += list(total.ravel())
    return out


def hole(direction, radius, diameter, point, density, depth):
    slope = np.tan(point / 2)
    cone = diameter / 2 / slope

    def area(x):
        r = diameter / 2 if x < depth - cone else (depth - x) * slope
        return np.pi * r * r

    arm = (lambda x: radius) if direction == "axial" else (lambda x: radius - x)
    cut = [max(0.0, depth - cone)]
    return density * integrate.quad(lambda x: area(x) * arm(x), 0, depth, points=cut, epsabs=0, epsrel=1e-13)[0]


def pad(radius, length, width, density, depth):
    half = length / radius / 2
    moment = integrate.dblquad(lambda r, t: r * np.cos(t) * r, -half, half, radius - width / 2, radius + width / 2,
                               epsabs=0, epsrel=1e-12)[0]
    return [density * depth * moment]


def key(density, width, bottom, joint, top, key_length, seat, hub):
    """First moment of what is there less what shaft and hub were balanced with, by quadrature over the height."""

    def moment(low, high, length):
        return density * width * length * integrate.quad(lambda r: r, low, high, epsabs=0, epsrel=1e-13)[0]

    return [moment(bottom, joint, key_length) + moment(joint, top, key_length) - moment(bottom, joint, seat)
            - moment(joint, top, hub)]


def main():
    command, *rest = sys.argv[1:]
    if command == "versions":
        print("NumPy", np.__version__, "SciPy", scipy.__version__)
        return
    if command == "solve":
        out = solve(rest)
    elif command == "drill":
        given = numbers(rest[1:])
        out = [hole(rest[0], *given[:4], depth) for depth in given[4:]]
    else:
        out = {"pad": pad, "key": key}[command](*numbers(rest))
    print(*(repr(float(x)) for x in out))


main()
