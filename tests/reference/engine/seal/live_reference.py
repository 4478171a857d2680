"""Live references for the seal engine: NumPy and SciPy compute, the test compares.

    live_reference.py versions
    live_reference.py summits LAMBDA...             integral of (s - lambda)^1.5 phi(s) by adaptive quadrature
    live_reference.py gradient_factor DO DI         mean of the pressure that is linear in ln r, pressure outside
    live_reference.py coned_gap RI RO H PHI MU DP   laminar flow through a gap h = H + PHI (r - r_mean), and its K
    live_reference.py fin RI RO L K H ALPHA         conductance and coning of a fin by a two-point boundary problem
    live_reference.py lump H MC G RISE              time to a rise by integrating the heat balance
    live_reference.py film NAME=VALUE...            the coupled film by collocation, see film()

Every command prints one line of numbers (or words, for versions).
"""

import sys

import numpy as np
import scipy
from scipy import integrate, special


def summits(lam):
    def weighted(s):
        return (s - lam) ** 1.5 * np.exp(-s * s / 2) / np.sqrt(2 * np.pi)

    parts = [integrate.quad(weighted, lam + a, lam + b, epsabs=0, epsrel=1e-12)[0] for a, b in ((0, 0.5), (0.5, 3), (3, 14))]
    return sum(parts)


def gradient_factor(outer, inner):
    def share(d):
        return np.log(d / inner) / np.log(outer / inner) * 2 * d / (outer**2 - inner**2)

    return integrate.quad(share, inner, outer, epsrel=1e-13)[0]


def coned_gap(ri, ro, h, phi, mu, dp):
    mean = (ri + ro) / 2

    def gap(r):
        return h + phi * (r - mean)

    def resistance(a, b):
        return integrate.quad(lambda r: 6 * mu / (np.pi * r * gap(r) ** 3), a, b, epsrel=1e-12)[0]

    flow = dp / resistance(ri, ro)
    k = integrate.quad(lambda r: flow * resistance(ri, r) / dp * 2 * r / (ro**2 - ri**2), ri, ro, epsrel=1e-11)[0]
    return flow, k


def fin(ri, ro, length, k, h, alpha):
    """Theta'' = m^2 theta, theta(0) = 1, theta'(L) = 0, with its first moment about the middle alongside."""
    area = np.pi * (ro**2 - ri**2)
    m2 = h * 2 * np.pi * ro / (k * area) * length**2

    def slope(x, y):
        return np.vstack([y[1], m2 * y[0], y[0] * (0.5 - x)])

    def ends(a, b):
        return np.array([a[0] - 1, b[1], a[2]])

    x = np.linspace(0, 1, 101)
    s = integrate.solve_bvp(slope, ends, x, np.vstack([np.ones_like(x), -np.ones_like(x), x]), tol=1e-10, max_nodes=20000)
    assert s.success, s.message
    conductance = -k * area * s.y[1, 0] / length
    return conductance, alpha * (ri + ro) / 2 * 12 * s.y[2, -1] / length


def lump(heat, mc, g, rise):
    def reached(t, y):
        return y[0] - rise

    reached.terminal = True
    s = integrate.solve_ivp(lambda t, y: [(heat - g * y[0]) / mc], (0, 1e5), [0], events=reached, rtol=1e-12, atol=1e-12)
    return s.t_events[0][0]


def film(ri, ro, balance, spring, chamber, atmosphere, omega, sigma, stiffness, friction, lapped, by_pressure, by_heat,
         to_chamber, along, mu0, beta, t0, rho_cp, tol=1e-9):
    """The equations of film.h for pressure outside and one temperature law of viscosity, by collocation.

    Unknown over x = (r - ri) / w: pressure, rise, heat flow along the radius, force so far, rise x area so far; and the
    numbers separation, angle, flow (outward positive, so negative for a leak inwards).
    """
    w = ro - ri
    mean = (ri + ro) / 2
    area = np.pi * (ro**2 - ri**2)
    across = chamber - atmosphere
    closing = balance * area * across + spring

    def summit_load(lam):
        # Gamma(5/2) exp(-lam^2/4) D_{-5/2}(lam) / sqrt(2 pi)
        return special.gamma(2.5) / np.sqrt(2 * np.pi) * np.exp(-lam * lam / 4) * special.pbdv(-2.5, lam)[0]

    def state(r, rise, number):
        separation = number[0] * 1e-7 + number[1] * 1e-5 * (r - mean)
        lam = separation / sigma
        gap = sigma * (lam * special.ndtr(lam) + np.exp(-lam * lam / 2) / np.sqrt(2 * np.pi))
        mu = mu0 * np.exp(-beta * (t0 + rise - 293.15))
        contact = stiffness * summit_load(lam)
        heat = mu * (omega * r) ** 2 / gap + friction * contact * omega * r
        return gap, mu, contact, heat

    def slope(x, y, number):
        r = ri + w * x
        p, rise, along_w, _, _ = y
        flow = number[2] * 1e-10
        gap, mu, contact, heat = state(r, rise * 10, number)
        dp = -6 * mu * flow / (np.pi * r * gap**3)
        drise = (rho_cp * flow * rise * 10 - along_w * 100) / (along * 2 * np.pi * r)
        dalong = 2 * np.pi * r * (heat - to_chamber / area * rise * 10)
        dforce = 2 * np.pi * r * (p * across + contact)
        return w * np.vstack([dp / across, drise / 10, dalong / 100, dforce / closing, 2 * np.pi * r * rise / area])

    def ends(a, b, number):
        angle = lapped + by_pressure * across + by_heat * 10 * b[4]
        return np.array([a[0], b[0] - 1, a[2] - rho_cp * number[2] * 1e-10 * a[1] * 10 / 100, b[2], a[3], b[3] - 1, a[4],
                         number[1] - angle / 1e-5])

    x = np.linspace(0, 1, 81)
    rise = 0.1 * (closing - 0.5 * across * area) * omega * mean / to_chamber / 10
    guess = np.vstack([x, np.full_like(x, rise), np.zeros_like(x), x, rise * x])
    s = integrate.solve_bvp(slope, ends, x, guess, p=[2 * sigma / 1e-7, 0.0, -1.0], tol=tol, max_nodes=50000)
    assert s.success, s.message
    fine = np.linspace(0, 1, 4001)
    r = ri + w * fine
    y = s.sol(fine)
    gap, _, contact, heat = state(r, y[1] * 10, s.p)

    def over_face(f):
        return integrate.simpson(f * 2 * np.pi * r, r)

    return (s.p[0] * 1e-7, s.p[1] * 1e-5, -s.p[2] * 1e-10, over_face(heat), over_face(contact), over_face(gap) / area,
            y[4, -1] * 10, y[1].max() * 10)


def main(arguments):
    command, rest = arguments[0], arguments[1:]
    if command == "versions":
        print("NumPy", np.__version__, "SciPy", scipy.__version__)
        return
    if command == "film":
        numbers = film(**{name: float(value) for name, value in (word.split("=") for word in rest)})
    else:
        values = [float(v) for v in rest]
        numbers = {
            "summits": lambda: [summits(v) for v in values],
            "gradient_factor": lambda: [gradient_factor(*values)],
            "coned_gap": lambda: coned_gap(*values),
            "fin": lambda: fin(*values),
            "lump": lambda: [lump(*values)],
        }[command]()
    print(*(f"{float(v):.12e}" for v in numbers))


if __name__ == "__main__":
    main(sys.argv[1:])
