#!/usr/bin/env python3
"""Makes docs/checks.md from the rows that the reference tests write when PUMPWRIGHT_CHECKS_OUT names a directory.

checks_table.py DIR FILE          writes the table
checks_table.py --check DIR FILE  fails when the table in FILE is not what the tests say; the digits agreed may differ by
                                  machine and only have to reach what each test asks for, which the test itself asserts
"""
import glob
import json
import os
import sys

HEAD = """# Outside checks

Every comparison of the engine with something outside the project: generated from the tests by `tools/checks_table.py`,
do not edit. *Obtained* says how the outside value came to us: **read** in the source or a public restatement of it,
**remembered** and not compared with the publication, **closed form**, **computed beside** by another program during the
test, or **common practice**. *Asked* is how many significant digits the test demands, *agreed* how many there were when
this page was made (at most as many as the outside value has).

"""


def rows_in(directory):
    rows = []
    for path in sorted(glob.glob(os.path.join(directory, "*.jsonl"))):
        with open(path, encoding="utf-8") as lines:
            rows += [json.loads(line) for line in lines]
    return rows


def cell(value):
    return str(value).replace("|", "\\|").replace("\n", " ")


# A live reference computes its value anew on every run, so its last digits are not part of the page.
def outside_value(row):
    value = f"{float(row['published']):.6g}" if row["obtained"] == "computed beside" else row["published"]
    return f"{value} {row['unit']}".strip()


def columns(row):
    return [row["what"], row["source"], row["obtained"], outside_value(row), row["digits_required"], row["digits_agreed"]]


def table(rows):
    groups = {}
    for row in rows:
        groups.setdefault(row["test"].split(".")[0], []).append(row)
    out = [HEAD, f"{len(rows)} comparisons in {len(groups)} groups.\n"]
    for group in sorted(groups):
        out.append(f"\n## {group}\n\n| what | source | obtained | outside value | asked | agreed |\n| --- | --- | --- | --- | ---: | ---: |\n")
        for row in groups[group]:
            out.append("| " + " | ".join(cell(c) for c in columns(row)) + " |\n")
    return "".join(out)


def without_agreed(text):
    return [line.rsplit("|", 2)[0] if line.startswith("| ") else line for line in text.splitlines()]


def main(arguments):
    check = arguments[0] == "--check"
    directory, target = arguments[1:] if check else arguments
    rows = rows_in(directory)
    if not rows:
        sys.exit("checks_table: the tests wrote no rows")
    made = table(rows)
    if not check:
        with open(target, "w", encoding="utf-8") as file:
            file.write(made)
        return
    with open(target, encoding="utf-8") as file:
        kept = file.read()
    if without_agreed(made) != without_agreed(kept):
        for a, b in zip(without_agreed(made), without_agreed(kept)):
            if a != b:
                print("tests:", a, "\npage: ", b)
                break
        sys.exit(f"{target} is out of date: run tools/checks_table.py {directory} {target}")


main(sys.argv[1:])
