"""Live references for the fluids: the Python package iapws and SciPy compute, the test compares.

    live_reference.py versions
    live_reference.py states REGION FILE     T [K], p [Pa] in pairs of raw little-endian doubles; regions 1, 2
    live_reference.py saturation FILE        T [K]
    live_reference.py sea_water FILE         T [K], salinity [kg/kg] in pairs
    live_reference.py antoine FILE           T [K], p [Pa] in pairs

`states` prints v, u, h, s, cp, cv, w, viscosity and conductivity of every state, `saturation` p and the temperature
found back from it, `sea_water` density, heat capacity and the activity of water, `antoine` A, B and C; all SI.
"""

import sys
import warnings
from importlib.metadata import version

import numpy as np
import scipy
from scipy import optimize

MPA = 1e6
KILO = 1e3
ATMOSPHERE_MPA = 0.101325
WATER_GAS_CONSTANT = 461.51805  # J/(kg K)


class Phase:
    """What the package's conductivity asks of a state for its critical enhancement."""

    def __init__(self, w, mu):
        self.cp = w["cp"]
        self.cp_cv = w["cp"] / w["cv"]
        self.mu = mu
        self.drhodP_T = w["kt"] / w["v"]


def states(region, pairs):
    from iapws import iapws97

    compute = {1: iapws97._Region1, 2: iapws97._Region2}[region]
    for t, p in pairs:
        w = compute(t, p / MPA)
        mu = iapws97._Viscosity(1 / w["v"], t)
        k = iapws97._ThCond(1 / w["v"], t, Phase(w, mu))
        u = w["h"] * KILO - p * w["v"]
        yield w["v"], u, w["h"] * KILO, w["s"] * KILO, w["cp"] * KILO, w["cv"] * KILO, w["w"], mu, k


def saturation(temperatures):
    from iapws import iapws97

    for t in temperatures:
        p = iapws97._PSat_T(t)
        yield p * MPA, iapws97._TSat_P(p)


def sea_water(pairs):
    from iapws.iapws08 import SeaWater

    for t, salinity in pairs:
        salt = SeaWater(T=t, P=ATMOSPHERE_MPA, S=salinity)
        fresh = SeaWater(T=t, P=ATMOSPHERE_MPA, S=0)
        yield salt.rho, salt.cp * KILO, np.exp((salt.muw - fresh.g) * KILO / (WATER_GAS_CONSTANT * t))


def antoine(pairs):
    t, p = pairs.T

    def misses(x):
        return x[0] - x[1] / (t + x[2]) - np.log(p)

    yield tuple(optimize.least_squares(misses, [23, 4000, -40], x_scale=[1, 1000, 10], ftol=1e-15, xtol=1e-15, gtol=1e-15).x)


def main(arguments):
    warnings.simplefilter("ignore")
    command, rest = arguments[0], arguments[1:]
    if command == "versions":
        print("iapws", version("iapws"), "SciPy", scipy.__version__)
        return
    numbers = np.fromfile(rest[-1])
    if command == "states":
        rows = states(int(rest[0]), numbers.reshape(-1, 2))
    elif command == "saturation":
        rows = saturation(numbers)
    elif command == "sea_water":
        rows = sea_water(numbers.reshape(-1, 2))
    elif command == "antoine":
        rows = antoine(numbers.reshape(-1, 2))
    else:
        raise SystemExit("unknown command " + command)
    for row in rows:
        print(*(repr(float(v)) for v in row))


main(sys.argv[1:])
