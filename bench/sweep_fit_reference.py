"""NumPy's lstsq on the designs of sweep_fit_bench.cpp (12 places with 5 orders, 3600 with 10).

Run with a Python that has NumPy, one thread: OPENBLAS_NUM_THREADS=1 /usr/bin/python3 bench/sweep_fit_reference.py
Best of several runs, design built inside the timing as in the C++ benchmark.
"""
import timeit

import numpy


def design_of(theta, order):
    columns = [numpy.ones_like(theta)]
    for k in range(1, order + 1):
        columns += [numpy.cos(k * theta), numpy.sin(k * theta)]
    return numpy.array(columns).T


def main():
    random = numpy.random.Generator(numpy.random.PCG64(7))
    print("NumPy", numpy.__version__)
    print("%-16s %8s %12s" % ("", "places", "us"))
    for count, order, repeats in ((12, 5, 2000), (3600, 10, 50)):
        theta = 2 * numpy.pi * numpy.arange(count) / count
        reading = 30e-6 * numpy.cos(theta - 0.7) + 5e-6 * numpy.cos(2 * theta) + random.normal(0, 1e-6, count)
        run = lambda: numpy.linalg.lstsq(design_of(theta, order), reading, rcond=None)
        seconds = min(timeit.repeat(run, number=repeats, repeat=5)) / repeats
        print("%-16s %8d %12.1f" % ("numpy_lstsq", count, 1e6 * seconds))


if __name__ == "__main__":
    main()
