"""Live references for the vibration engine: SciPy computes, the test compares.

    live_reference.py versions
    live_reference.py welch FILE RATE SEGMENT OVERLAP WINDOW    density at every line

FILE holds raw doubles; WINDOW is SciPy's word for it. Every command prints one line of numbers (or words, for versions).
"""

import sys

import numpy as np
import scipy
from scipy import signal


def welch(file, rate, segment, overlap, window):
    x = np.fromfile(file)
    _, density = signal.welch(x, float(rate), window, int(segment), int(overlap), detrend="constant", scaling="density")
    return density


if sys.argv[1] == "versions":
    print("NumPy", np.__version__, "SciPy", scipy.__version__)
else:
    print(*(repr(float(v)) for v in welch(*sys.argv[2:])))
