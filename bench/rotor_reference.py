"""The eigenproblems of rotor_bench.cpp with scipy.linalg.eig on the same matrices.

    rotor_reference.py MATRICES SPIN REPEATS

MATRICES: the number of unknowns, then M, G and K, raw doubles. Prints the shortest times in milliseconds for the modes and for
both lists of critical speeds, then lowest forward and backward mode and first forward and backward critical speed [rad/s].
"""

import sys
import time

import numpy as np
from scipy import linalg


def modes(mass, gyro, stiff, spin):
    """w of (K + w S G - w² M) x = 0, all of them."""
    zero, one = np.zeros_like(mass), np.eye(mass.shape[0])
    left = np.block([[zero, one], [stiff, spin * gyro]])
    right = np.block([[one, zero], [zero, mass]])
    return linalg.eig(left, right, right=False).real


def critical(mass, gyro, stiff):
    both = []
    for sign in (-1, 1):
        squares = linalg.eig(stiff, mass + sign * gyro, right=False).real
        both.append(np.sqrt(np.min(squares[squares > 0])))
    return both


def shortest(work, repeats):
    best = float("inf")
    for _ in range(repeats):
        start = time.perf_counter()
        result = work()
        best = min(best, time.perf_counter() - start)
    return best * 1e3, result


def main(path, spin, repeats):
    raw = np.fromfile(path)
    n = int(raw[0])
    mass, gyro, stiff = raw[1:].reshape(3, n, n)
    modes_ms, w = shortest(lambda: modes(mass, gyro, stiff, spin), repeats)
    critical_ms, speeds = shortest(lambda: critical(mass, gyro, stiff), repeats)
    print(modes_ms, critical_ms, repr(float(np.min(w[w > 0]))), repr(float(-np.max(w[w < 0]))), *(repr(float(s)) for s in speeds))


main(sys.argv[1], float(sys.argv[2]), int(sys.argv[3]))
