"""Saturation pressure of water by the Python package iapws, for fluid_bench.cpp: nanoseconds for one value, shortest of 5 runs."""

import random
import time

from iapws.iapws97 import _PSat_T

random.seed(7)
temperatures = [random.uniform(280, 450) for _ in range(20_000)]
best = float("inf")
for _ in range(5):
    start = time.perf_counter()
    total = sum(map(_PSat_T, temperatures))
    best = min(best, time.perf_counter() - start)
print(f"iapws _PSat_T: {best / len(temperatures) * 1e9:.0f} ns a value (mean pressure {total / len(temperatures):.4f} MPa)")
