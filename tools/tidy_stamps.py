"""A line "FILE STAMP" for every source that is to be checked: the stamp changes with the file, with every header of the project
it includes (as the build found them), with .clang-tidy and with the version of clang-tidy.

    tidy_stamps.py BUILD FILE...
"""

import hashlib
import subprocess
import sys
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


@cache
def digest(path):
    return hashlib.sha256((ROOT / path).read_bytes()).hexdigest()


def inside(path, build):
    """The path from the project's folder; nothing for a header of the system or one the build made."""
    full = (build / path).resolve()
    if not full.is_relative_to(ROOT) or full.is_relative_to(ROOT / "build"):
        return None
    return str(full.relative_to(ROOT))


def included(build):
    """Files of the project that each source was last built from."""
    text = subprocess.run(["ninja", "-C", str(build), "-t", "deps"], capture_output=True, text=True, check=True).stdout
    out = {}
    for entry in text.split("\n\n"):
        _, *lines = entry.strip().split("\n") or [""]
        files = [f for f in (inside(line.strip(), build) for line in lines) if f]
        if files:
            out.setdefault(next((f for f in files if f.endswith(".cpp")), files[0]), set()).update(files)
    return out


def main(build, files):
    build = Path(build).resolve()
    known = included(build)
    version = subprocess.run(["clang-tidy", "--version"], capture_output=True, check=True).stdout
    everything = sorted(subprocess.run(["git", "ls-files", "*.h"], capture_output=True, text=True, check=True, cwd=ROOT).stdout.split())
    for file in files:
        parts = sorted(known.get(file, {file, *everything}) | {file, ".clang-tidy"})
        whole = hashlib.sha256(version + "".join(part + digest(part) for part in parts).encode())
        print(file, whole.hexdigest()[:32])


main(sys.argv[1], sys.argv[2:])
