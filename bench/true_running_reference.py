"""The attribution of true_running_bench.cpp done with NumPy: the same assumptions, evidence and least squares.

    true_running_reference.py ROTATING STANDING REPEATS    files of ten doubles a station

Prints the shortest time in seconds of REPEATS runs of both chains together, with all assumptions of a chain in one batch
(the quickest way in NumPy that was found), then the probability of the best assumption of each chain.
"""

import sys
import time
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "tests/reference/engine/assembly"))
import true_running_gls  # noqa: E402


def main(rotating, standing, repeats):
    files = {"rotating": np.fromfile(rotating), "standing": np.fromfile(standing)}
    best = float("inf")
    for _ in range(repeats):
        start = time.perf_counter()
        found = [true_running_gls.case_of(kind, rows).batched()[0].max() for kind, rows in files.items()]
        best = min(best, time.perf_counter() - start)
    print(best, *(repr(float(p)) for p in found))


main(sys.argv[1], sys.argv[2], int(sys.argv[3]))
