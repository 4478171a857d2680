"""The acceptance of acceptance_bench.cpp drawn with NumPy: nine points, five instruments, a quadratic through every draw.

    acceptance_reference.py SAMPLES REPEATS

Prints the shortest time in seconds of REPEATS runs, then the chance that the 1B cross is touched and the mean and standard
deviation of the head at the guaranteed flow, so that the caller can see that both did the same. The quadratics of all draws
of a chunk are solved at once; chunks keep the arrays in the cache.
"""

import sys
import time

import numpy as np

G = 9.80665
WEIGHT = 9806.65
CHUNK = 20000


def velocity_head(flow, bore):
    return (flow / (np.pi / 4 * bore**2)) ** 2 / (2 * G)


def chunk(random, n, scale):
    q = 0.0015 * np.arange(9)
    head = scale * (40 - 1e5 * q**2)
    ps = np.full(9, -20e3)
    pd = ps + (head - 0.7 - velocity_head(q, 0.065) + velocity_head(q, 0.080)) * WEIGHT
    flow = q * (1 + random.uniform(-0.01, 0.01, (n, 1)))
    suction = ps + random.uniform(-500, 500, (n, 1)) + random.uniform(-500, 500, (n, 9))
    discharge = pd + random.uniform(-3000, 3000, (n, 1)) + random.uniform(-1000, 1000, (n, 9))
    ratio = 1 / (1 + random.uniform(-0.002, 0.002, (n, 1)))
    heads = (discharge - suction) / WEIGHT + 0.7 + velocity_head(flow, 0.065) - velocity_head(flow, 0.080)
    x, y = flow * ratio * 100, heads * ratio**2
    s1, s2, s3, s4 = x.sum(1), (x**2).sum(1), (x**3).sum(1), (x**4).sum(1)
    m = np.empty((n, 3, 3))
    m[:, 0, 0], m[:, 0, 1], m[:, 0, 2] = 9, s1, s2
    m[:, 1, 0], m[:, 1, 1], m[:, 1, 2] = s1, s2, s3
    m[:, 2, 0], m[:, 2, 1], m[:, 2, 2] = s2, s3, s4
    rhs = np.stack([y.sum(1), (x * y).sum(1), (x * x * y).sum(1)], axis=1)
    c = np.linalg.solve(m, rhs[..., None])[..., 0]

    def at(flow):
        t = 100 * flow
        return c[:, 0] + c[:, 1] * t + c[:, 2] * t * t

    there = at(0.01)
    low = np.maximum(there - 0.97 * 30, at(0.0095) - 30) >= 0
    high = np.maximum(1.03 * 30 - there, 30 - at(0.0105)) >= 0
    return low & high, there


def run(samples, seed):
    random = np.random.default_rng(seed)
    met, heads = [], []
    for start in range(0, samples, CHUNK):
        inside, there = chunk(random, min(CHUNK, samples - start), 0.965)
        met.append(inside)
        heads.append(there)
    heads = np.concatenate(heads)
    return np.concatenate(met).mean(), heads.mean(), heads.std(ddof=1)


def main(samples, repeats):
    best = float("inf")
    for seed in range(repeats):
        start = time.perf_counter()
        result = run(samples, seed)
        best = min(best, time.perf_counter() - start)
    print(best, *(repr(float(v)) for v in result))


main(int(sys.argv[1]), int(sys.argv[2]))
