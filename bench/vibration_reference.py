"""scipy.signal.welch on the samples of vibration_bench.cpp.

    vibration_reference.py SIGNAL RESULT RATE SEGMENT OVERLAP REPEATS

SIGNAL holds raw doubles; the density goes to RESULT as raw doubles. Prints the shortest time in seconds.
"""

import sys
import time

import numpy as np
from scipy import signal

path, result, rate, segment, overlap, repeats = sys.argv[1:]
x = np.fromfile(path)
best = float("inf")
for _ in range(int(repeats)):
    start = time.perf_counter()
    _, density = signal.welch(x, float(rate), "hann", int(segment), int(overlap), detrend="constant")
    best = min(best, time.perf_counter() - start)
density.tofile(result)
print(best)
