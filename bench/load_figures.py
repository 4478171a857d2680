#!/usr/bin/env python3
"""Takes the figures of docs/store.md anew and prints their table: tablets against the server, search beside plain FTS5.

    python3 bench/load_figures.py BUILD [DIRECTORY]

BUILD is an optimised build with benchmarks; DIRECTORY lies on the disk to measure and is made (by default beside the build's
own files). Takes about five minutes. Say on what machine, and measure when it has nothing else to do.
"""

import json
import os
import re
import shutil
import subprocess
import sys

LOADS = (
    ("no pause", ["--think-ms", "0"]),
    ("pause of 250 ms", ["--think-ms", "250"]),
    ("pause of 250 ms, each reads its job anew after every change", ["--think-ms", "250", "--views"]),
)


def load(build, directory, arguments):
    place = os.path.join(directory, "load")
    shutil.rmtree(place, ignore_errors=True)
    command = [os.path.join(build, "bench", "load_tablets"), "--program", os.path.join(build, "cli", "pumpwright"), "--directory", place, "--json", *arguments]
    ran = subprocess.run(command, stdout=subprocess.PIPE, text=True, check=False)
    if ran.returncode not in (0, 1):
        sys.exit(ran.returncode)
    shutil.rmtree(place)
    return json.loads(ran.stdout)


def ms(spread):
    return f"{spread['p50']:.0f} / {spread['p99']:.0f}" if spread["count"] else "–"


def load_row(name, f):
    plain = f"{f['plain_events_per_s']:.0f}, ratio {f['ratio']:.2f}" if "ratio" in f else "–"
    return (f"| {name} | {f['events']} / {f['faults']['count']} | {f['events_per_s']:.0f} | {f['events_per_transaction']:.1f} | {plain} | "
            f"{ms(f['acknowledged_ms'])} | {ms(f['seen_ms'])} | {ms(f['viewed_ms'])} | {f['peak_resident_mib']:.0f} MiB | {f['server_cores']:.2f} + {f['load_cores']:.2f} |")


def search_rows(build, directory):
    ran = subprocess.run([os.path.join(build, "bench", "store_bench"), "search", directory], stdout=subprocess.PIPE, text=True, check=True)
    for typed, own, plain in re.findall(r"^search (.+?) +of \d+ entries: +([\d.]+) ms.*plain FTS5 +([\d.]+) ms", ran.stdout, re.MULTILINE):
        yield f"| `{typed}` | {float(own):.2f} ms | {float(plain):.2f} ms |"


def main():
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    build = sys.argv[1]
    directory = sys.argv[2] if len(sys.argv) == 3 else os.path.join(build, "figures")
    os.makedirs(directory, exist_ok=True)
    figures = [(name, load(build, directory, arguments)) for name, arguments in LOADS]
    m = figures[0][1]["machine"]
    loads = ", ".join(f"{f['machine']['load_1min']:.1f}" for _, f in figures)
    syncs = ", ".join(f"{f['machine']['sync_ms']:.1f}" for _, f in figures)
    print(f"{m['processor']}, {m['cores']} cores, {m['memory_gib']:.0f} GiB, {m['system']}, {m['file_system']}; before each run a sync took {syncs} ms, "
          f"the machine's load was {loads}. 50 tablets at 25 jobs, 60 s.\n")
    print("| tablets | events / faults | events/s | in a transaction | plain SQLite, rows/s | acknowledged, p50 / p99 ms | seen on the other tablet | job read anew | "
          "server's memory, at most | cores: server + load |")
    print("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |")
    for name, f in figures:
        print(load_row(name, f))
    print("\n| typed | the store | plain FTS5 |\n| --- | --- | --- |", flush=True)
    for row in search_rows(build, directory):
        print(row)
    faults = [fault for _, f in figures for fault in f["faults"]["first"]]
    print("".join(f"FAULT: {fault}\n" for fault in faults), end="", file=sys.stderr)
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
