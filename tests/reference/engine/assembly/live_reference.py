"""Live references for the assembly engine: NumPy and SciPy compute, the test compares.

    live_reference.py versions
    live_reference.py variances
    live_reference.py order_statistics FILE P...      FILE holds raw little-endian doubles
    live_reference.py ks DISTRIBUTION FILE
    live_reference.py press_fit D DO DI DELTA EO NUO EI NUI
    live_reference.py true_running rotating|standing FILE   FILE: ten doubles a station, see true_running_gls.py
    live_reference.py shaft_line COUPLING N X1 SIGN1 R1 U1 (ANGLE READING)... X2 SIGN2 R2 U2 (ANGLE READING)...
        N readings of each of two dials; R over 0: a face at that radius, else a rim at X

Every command prints one line of numbers (or words, for versions).
"""

import sys

import numpy as np
import scipy
from scipy import integrate, stats

import true_running_gls


def distributions():
    """Shapes used in the tests, on [-2, 5] where they have ends."""
    return {
        "normal": stats.norm(1.5, 0.7),
        "rectangular": stats.uniform(-2, 7),
        "triangular": stats.triang(0.5, -2, 7),
        "trapezoidal": stats.trapezoid(0.5 * (1 - 0.3), 0.5 * (1 + 0.3), -2, 7),
        "arcsine": stats.arcsine(-2, 7),
        "student_t": stats.t(5, 1.5, 0.7),
    }


def curvilinear_trapezoid_cdf(x, lower=-1.5, upper=4.5, inexactness=0.5):
    """Average of the rectangle's distribution function over its inexact half width, by quadrature."""
    middle = (lower + upper) / 2
    half = (upper - lower) / 2
    w = np.polynomial.legendre.leggauss(400)
    widths = half + inexactness * w[0]
    inside = np.clip((np.asarray(x)[:, None] - middle + widths) / (2 * widths), 0, 1)
    return inside @ (w[1] / 2)


def press_fit(d, d_o, d_i, delta, e_o, nu_o, e_i, nu_i):
    """Contact pressure by integrating the equilibrium of both rings numerically, without Lame's formulas.

    Plane stress: u'' + u'/r - u/r^2 = 0, sigma_r = E/(1-nu^2) (u' + nu u/r).
    """

    def ring(free_radius, contact_radius, e, nu):
        def slope(r, y):
            return [y[1], -y[1] / r + y[0] / r**2]

        def end(u, du):
            solution = integrate.solve_ivp(slope, (free_radius, contact_radius), [u, du], rtol=1e-12, atol=1e-16)
            u_c, du_c = solution.y[:, -1]
            return u_c, e / (1 - nu**2) * (du_c + nu * u_c / contact_radius)

        # The free surface has no radial stress: u' = -nu u / r there.
        u_c, sigma_c = end(1.0, -nu / free_radius)
        return u_c / sigma_c  # displacement per radial stress at the contact

    contact = d / 2
    hub = ring(d_o / 2, contact, e_o, nu_o)
    shaft = ring(max(d_i / 2, contact * 1e-5), contact, e_i, nu_i) if d_i > 0 else (1 - nu_i) * contact / e_i
    # sigma = -p on both; the hub goes out, the shaft in, together delta / 2.
    return (delta / 2) / (-hub + shaft)


def shaft_line(coupling, count, numbers):
    """Offsets and slopes (up, right, up', right') and their variances from one fit to all readings of both dials."""
    rows, observed = [], []
    each = 4 + 2 * count
    for d in range(2):
        x, sign, radius, u, *pairs = numbers[d * each:(d + 1) * each]
        for angle, reading in zip(pairs[0::2], pairs[1::2]):
            c, s = np.cos(angle), np.sin(angle)
            arm = x - coupling
            part = [0, 0, radius * c, radius * s] if radius > 0 else [c, s, arm * c, arm * s]
            rows.append(np.array([sign * p for p in part] + [d == 0, d == 1], dtype=float) / u)
            observed.append(reading / u)
    design = np.array(rows)
    best = np.linalg.lstsq(design, np.array(observed), rcond=None)[0]
    return [*best[:4], *np.diag(np.linalg.inv(design.T @ design))[:4]]


def main(arguments):
    command, rest = arguments[0], arguments[1:]
    if command == "versions":
        print("NumPy", np.__version__, "SciPy", scipy.__version__)
    elif command == "variances":
        print(*(f"{d.var():.12f}" for d in distributions().values()))
    elif command == "order_statistics":
        x = np.fromfile(rest[0])
        p = [float(v) for v in rest[1:]]
        numbers = [x.mean(), x.std(ddof=1), x.min(), x.max(), *np.quantile(x, p, method="inverted_cdf")]
        print(*(repr(float(v)) for v in numbers))
    elif command == "ks":
        x = np.fromfile(rest[1])
        cdf = curvilinear_trapezoid_cdf if rest[0] == "curvilinear_trapezoid" else distributions()[rest[0]].cdf
        if rest[0] == "curvilinear_trapezoid":
            grid = np.linspace(-2, 5, 20001)
            table = curvilinear_trapezoid_cdf(grid)
            cdf = lambda v: np.interp(v, grid, table)  # noqa: E731
        print(repr(float(stats.kstest(x, cdf).pvalue)))
    elif command == "press_fit":
        print(repr(float(press_fit(*(float(v) for v in rest)))))
    elif command == "true_running":
        print(*true_running_gls.report(rest[0], np.fromfile(rest[1])))
    elif command == "shaft_line":
        print(*(repr(float(v)) for v in shaft_line(float(rest[0]), int(rest[1]), [float(v) for v in rest[2:]])))
    else:
        raise SystemExit("unknown command " + command)


main(sys.argv[1:])
