"""Harmonic fits and quantiles by NumPy and SciPy, run as a separate process beside the reference tests.

usage: live_reference.py versions
       live_reference.py readings SEED COUNT            angle [rad] and reading [m], one pair a line
       live_reference.py harmonics SEED COUNT ORDER     coefficients, residual sum of squares, cofactors of cos and sin
       live_reference.py quantiles NAME:ARGS...         one value a line
Numbers are printed with all their digits.
"""
import sys

import numpy
import scipy
from scipy import linalg, special, stats


def readings(seed, count):
    """Places jittered by up to 30 % of their spacing, three orders of form and noise."""
    random = numpy.random.Generator(numpy.random.PCG64(seed))
    angle = 2 * numpy.pi * (numpy.arange(count) + random.uniform(-0.3, 0.3, count)) / count
    reading = 1e-3 * random.uniform() + 2e-6 * random.standard_normal(count)
    for order in (1, 2, 3):
        reading += random.uniform(0, 1e-4) * numpy.cos(order * angle - random.uniform(0, 6))
    return angle, reading


def harmonics(seed, count, order):
    angle, reading = readings(seed, count)
    columns = [numpy.ones(count)]
    for k in range(1, order + 1):
        columns += [numpy.cos(k * angle), numpy.sin(k * angle)]
    design = numpy.array(columns).T
    beta, _, _, _ = linalg.lstsq(design, reading, lapack_driver="gelsd")
    residual = reading - design @ beta
    cofactor = linalg.inv(design.T @ design)
    return list(beta) + [residual @ residual, cofactor[1, 1], cofactor[1, 2], cofactor[2, 2]]


def quantile(request):
    name, *words = request.split(":")
    p, *dof = (float(word) for word in words)
    if name == "normal":
        return special.ndtri(p)
    if name == "student":  # through the incomplete beta function, which keeps more digits than stdtrit
        x = special.betaincinv(dof[0] / 2, 0.5, 2 * (1 - p))
        return numpy.sqrt(dof[0] * (1 / x - 1))
    if name == "student_cdf":
        return stats.t.cdf(p, dof[0])
    if name == "chi_square":
        return special.chdtri(dof[0], 1 - p)
    if name == "f":
        return stats.f.ppf(p, dof[0], dof[1])
    raise ValueError(name)


def main(words):
    if words[0] == "versions":
        print("NumPy", numpy.__version__, "SciPy", scipy.__version__)
    elif words[0] == "readings":
        for pair in zip(*readings(int(words[1]), int(words[2]))):
            print("%.17g %.17g" % pair)
    elif words[0] == "harmonics":
        for value in harmonics(int(words[1]), int(words[2]), int(words[3])):
            print("%.17g" % value)
    elif words[0] == "quantiles":
        for request in words[1:]:
            print("%.17g" % quantile(request))
    else:
        sys.exit(__doc__)


if __name__ == "__main__":
    main(sys.argv[1:])
