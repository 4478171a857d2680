"""How long one `judge` of the demonstration job takes as a whole process, without the PDF: judge_process.py PROGRAM JOB [RUNS]

Start to exit as the shell sees it: loading the program, the built-in catalog, the job, judging, printing. Prints the
shortest, the median and the longest of RUNS runs after three that are not counted.
"""

import statistics
import subprocess
import sys
import time


def once(program, job):
    start = time.perf_counter()
    done = subprocess.run([program, "judge", job], stdout=subprocess.DEVNULL, check=False)
    if done.returncode not in (0, 1):
        sys.exit(f"judge ended with {done.returncode}")
    return time.perf_counter() - start


def main(program, job, runs):
    times = [once(program, job) for _ in range(runs + 3)][3:]
    print(f"judge as a process, {runs} runs: shortest {min(times) * 1e3:.1f} ms, "
          f"median {statistics.median(times) * 1e3:.1f} ms, longest {max(times) * 1e3:.1f} ms")


main(sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 50)
