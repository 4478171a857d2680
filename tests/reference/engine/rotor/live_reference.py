"""Independent computations of bent and whirling shafts, run beside the tests.

    live_reference.py versions
    live_reference.py line ROTOR FORCE_AT FORCE PLACE...     deflection by the force and by weight at each place
    live_reference.py modes ROTOR SPIN ELEMENTS COUNT        whirl frequencies [rad/s], backward ones negative
    live_reference.py critical ROTOR ELEMENTS COUNT          first forward, then COUNT backward critical speeds

ROTOR is JSON: modulus, density, poisson, steps [length, diameter, bore], supports [at, stiffness or 0], disks
[at, mass, polar, diametral], stations. SI units.
"""

import json
import math
import sys

import numpy as np
import scipy
from scipy import integrate, linalg, optimize

G = 9.80665


class Rotor:
    def __init__(self, text):
        data = json.loads(text)
        self.modulus, self.density, poisson = data["modulus"], data["density"], data["poisson"]
        self.shear = self.modulus / (2 * (1 + poisson))
        self.poisson = poisson
        self.steps, self.supports, self.disks = data["steps"], data["supports"], data["disks"]
        self.stations = data["stations"]
        self.ends = np.concatenate([[0], np.cumsum([s[0] for s in self.steps])])

    def section(self, x):
        """Area, second moment, effective shear area at a place inside a step."""
        step = min(int(np.searchsorted(self.ends, x, side="right")) - 1, len(self.steps) - 1)
        _, d, b = self.steps[step]
        m, v = b / d, self.poisson
        kappa = 6 * (1 + v) * (1 + m * m) ** 2 / ((7 + 6 * v) * (1 + m * m) ** 2 + (20 + 12 * v) * m * m)
        area = math.pi / 4 * (d * d - b * b)
        return area, math.pi / 64 * (d**4 - b**4), kappa * area

    def cuts(self, more=()):
        places = [*self.ends, *(s[0] for s in self.supports), *(d[0] for d in self.disks), *self.stations, *more]
        places = sorted(places)
        return [p for i, p in enumerate(places) if i == 0 or p - places[i - 1] > 1e-9]


def reactions(rotor, forces):
    (a, _), (b, _) = rotor.supports
    at_b = sum(f * (x - a) for x, f in forces) / (b - a)
    return sum(f for _, f in forces) - at_b, at_b


def unit_load(rotor, forces, distributed, place):
    """Deflection at `place`: integrals of M m / EI and V v / kappa G A, and what the springs give."""
    weights = []
    if distributed:
        for (length, _, _), start in zip(rotor.steps, rotor.ends):
            area = rotor.section(start + length / 2)[0]
            weights.append((start, length, rotor.density * area * G))
    lumped = list(forces) + [(start + length / 2, q * length) for start, length, q in weights]
    held = reactions(rotor, lumped)
    unit_held = reactions(rotor, [(place, 1.0)])
    supports = [s[0] for s in rotor.supports]

    def shear(x, points, spread, hold):
        v = sum(f for p, f in points if p < x) - sum(r for p, r in zip(supports, hold) if p < x)
        return v + sum(q * min(max(x - start, 0), length) for start, length, q in spread)

    def moment(x, points, spread, hold):
        m = sum(f * (x - p) for p, f in points if p < x) - sum(r * (x - p) for p, r in zip(supports, hold) if p < x)
        for start, length, q in spread:
            reach = min(max(x - start, 0), length)
            m += q * reach * (x - start - reach / 2)
        return m

    def integrand(x):
        _, inertia, shear_area = rotor.section(x)
        unit = [(place, 1.0)]
        return (moment(x, forces, weights, held) * moment(x, unit, [], unit_held) / (rotor.modulus * inertia)
                + shear(x, forces, weights, held) * shear(x, unit, [], unit_held) / (rotor.shear * shear_area))

    cuts = rotor.cuts([place, *(p for p, _ in forces)])
    total = sum(integrate.fixed_quad(np.vectorize(integrand), lo, hi, n=8)[0] for lo, hi in zip(cuts, cuts[1:]))
    for (_, k), r, u in zip(rotor.supports, held, unit_held):
        if k > 0:
            total += r * u / k
    return total


def line(rotor, at, force, places):
    disks = [(d[0], d[1] * G) for d in rotor.disks]
    for place in places:
        yield unit_load(rotor, [(at, force)], False, place)
        yield unit_load(rotor, disks, True, place)


def element(rotor, x0, x1):
    """Mass, half gyroscopic and stiffness by quadrature of the exact static shape functions."""
    length = x1 - x0
    area, inertia, shear_area = rotor.section((x0 + x1) / 2)
    lag = rotor.modulus * inertia / (rotor.shear * shear_area)

    # w = c0 + c1 x + c2 x² + c3 x³; section's rotation w' + lag w'''
    def w_row(x):
        return np.array([1, x, x * x, x**3])

    def t_row(x):
        return np.array([0, 1, 2 * x, 3 * x * x + 6 * lag])

    inverse = np.linalg.inv(np.array([w_row(0), t_row(0), w_row(length), t_row(length)]))
    nodes, weights = np.polynomial.legendre.leggauss(6)
    mass, turn, stiff = np.zeros((4, 4)), np.zeros((4, 4)), np.zeros((4, 4))
    for node, weight in zip((nodes + 1) * length / 2, weights * length / 2):
        w, t = w_row(node) @ inverse, t_row(node) @ inverse
        bend = np.array([0, 0, 2, 6 * node]) @ inverse
        slip = np.array([0, 0, 0, -6 * lag]) @ inverse  # w' - t
        mass += weight * rotor.density * area * np.outer(w, w)
        turn += weight * rotor.density * inertia * np.outer(t, t)
        stiff += weight * (rotor.modulus * inertia * np.outer(bend, bend)
                           + rotor.shear * shear_area * np.outer(slip, slip))
    return mass, turn, stiff


def assembled(rotor, elements):
    longest = rotor.ends[-1] / elements
    nodes = [0.0]
    cuts = rotor.cuts()
    for lo, hi in zip(cuts, cuts[1:]):
        parts = max(1, math.ceil((hi - lo) / longest - 1e-9))
        nodes += [lo + (hi - lo) * i / parts for i in range(1, parts + 1)]
    n = 2 * len(nodes)
    mass, gyro, stiff = np.zeros((n, n)), np.zeros((n, n)), np.zeros((n, n))
    for i in range(len(nodes) - 1):
        m, t, k = element(rotor, nodes[i], nodes[i + 1])
        at = slice(2 * i, 2 * i + 4)
        mass[at, at] += m + t
        gyro[at, at] += 2 * t
        stiff[at, at] += k

    def node_of(x):
        return int(np.argmin(np.abs(np.array(nodes) - x)))

    for at, m, polar, diametral in rotor.disks:
        i = 2 * node_of(at)
        mass[i, i] += m
        mass[i + 1, i + 1] += diametral
        gyro[i + 1, i + 1] += polar
    fixed = []
    for at, k in rotor.supports:
        i = 2 * node_of(at)
        if k > 0:
            stiff[i, i] += k
        else:
            fixed.append(i)
    free = [i for i in range(n) if i not in fixed]
    pick = np.ix_(free, free)
    return mass[pick], gyro[pick], stiff[pick]


def state_modes(mass, gyro, stiff, spin, count):
    """Planes y and z as real unknowns: M q'' + S [[0, G], [-G, 0]] q' + K q = 0; sense from the vectors."""
    n = mass.shape[0]
    zero = np.zeros((n, n))
    big_mass = np.block([[mass, zero], [zero, mass]])
    big_gyro = spin * np.block([[zero, gyro], [-gyro, zero]])
    big_stiff = np.block([[stiff, zero], [zero, stiff]])
    inverse = np.linalg.inv(big_mass)
    state = np.block([[np.zeros((2 * n, 2 * n)), np.eye(2 * n)], [-inverse @ big_stiff, -inverse @ big_gyro]])
    values, vectors = linalg.eig(state)
    found = []
    for value, vector in zip(values, vectors.T):
        if value.imag <= 0:
            continue
        y, z = vector[:n], vector[n:2 * n]
        turning = np.sum((np.conj(y) * z).imag)  # z lags y by a quarter turn: forward
        found.append((value.imag, 1 if turning < 0 else -1))
    if spin == 0:
        found.sort()
        return [w for w, _ in found][::2][:count]
    forward = sorted(w for w, sense in found if sense > 0)[:count]
    backward = sorted(w for w, sense in found if sense < 0)[:count]
    both = [(w, w) for w in forward] + [(w, -w) for w in backward]
    return [signed for _, signed in sorted(both)]


def critical(rotor, elements, count):
    matrices = assembled(rotor, elements)

    def of_sense(spin, sense):
        return [abs(w) for w in state_modes(*matrices, spin, 12) if w * sense > 0]

    def crossing(sense, index, top):
        return optimize.brentq(lambda s: of_sense(s, sense)[index] - s, 1, top, xtol=1e-9, rtol=1e-13)

    first = of_sense(1e-6, 1)
    yield crossing(1, 0, 4 * first[0])
    for i in range(count):
        yield crossing(-1, i, first[i] * 1.01)


def main(arguments):
    command, rest = arguments[0], arguments[1:]
    if command == "versions":
        print("NumPy", np.__version__, "SciPy", scipy.__version__)
        return
    rotor = Rotor(rest[0])
    values = [float(v) for v in rest[1:]]
    numbers = {
        "line": lambda: line(rotor, values[0], values[1], values[2:]),
        "modes": lambda: state_modes(*assembled(rotor, int(values[1])), values[0], int(values[2])),
        "critical": lambda: critical(rotor, int(values[0]), int(values[1])),
    }[command]()
    print(*(f"{float(v):.12e}" for v in numbers))


if __name__ == "__main__":
    main(sys.argv[1:])
