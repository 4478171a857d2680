"""The stack of stack_bench.cpp done with NumPy: 4 normal and 4 rectangular links, all results the program reports.

    stack_reference.py SAMPLES REPEATS

Prints the shortest time in seconds of REPEATS runs, then mean, sd, the 0.135 % and 99.865 % quantiles and the
probability inside, so that the caller can see that both did the same.
"""

import sys
import time

import numpy as np


def run(samples, seed):
    random = np.random.default_rng(seed)
    total = np.zeros(samples)
    for link in range(8):
        coefficient = 1.0 if link % 2 else -1.0
        if link < 4:
            total += coefficient * random.normal(0.02, 1e-4 / 3, samples)
        else:
            total += coefficient * random.uniform(0.02 - 1e-4, 0.02 + 1e-4, samples)
    quantiles = np.quantile(total, [0.00135, 0.025, 0.5, 0.975, 0.99865])
    inside = np.mean((total >= -1e-4) & (total <= 1e-4))
    return total.mean(), total.std(ddof=1), quantiles[0], quantiles[4], inside, total.min(), total.max()


def main(samples, repeats):
    best = float("inf")
    for seed in range(repeats):
        start = time.perf_counter()
        result = run(samples, seed)
        best = min(best, time.perf_counter() - start)
    print(best, *(repr(float(v)) for v in result[:5]))


main(int(sys.argv[1]), int(sys.argv[2]))
