"""Runs the real program with literal arguments and looks at what comes back.

The path of the program comes from the environment variable PUMPWRIGHT, which CTest sets.
"""

import json
import os
import subprocess
import unittest
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
PROGRAM = os.environ["PUMPWRIGHT"]

# Sanitizers must not end the program with a status that means something else.
ENVIRONMENT = {
    "PATH": os.environ.get("PATH", "/usr/bin:/bin"),
    "LC_ALL": "C.UTF-8",
    "ASAN_OPTIONS": "exitcode=99:detect_leaks=1",
    "LSAN_OPTIONS": "exitcode=99:print_suppressions=0",
    "UBSAN_OPTIONS": "exitcode=99:print_stacktrace=1",
}


def run(*arguments, stdin=b"", cwd=ROOT, environment=None):
    """One run of the program; stdout and stderr as text. A time limit only keeps a hanging program from hanging the tests."""
    done = subprocess.run(
        [PROGRAM, *arguments],
        input=stdin,
        capture_output=True,
        cwd=cwd,
        env={**ENVIRONMENT, **(environment or {})},
        timeout=300,
        check=False,
    )
    done.stdout = done.stdout.decode("utf-8")
    done.stderr = done.stderr.decode("utf-8")
    return done


class SchemaAndDecoder:
    """Mixed into a ProgramTest: a published schema and the program's decoder agree on a corpus of bad files."""

    def refuse_together(self, command, files, validator, beyond_a_schema):
        """The program refuses every file; the schema all that hold a document, but those it can not judge. How many it saw."""
        judged = 0
        for path in files:
            with self.subTest(path.name):
                self.complaint_of(command, str(path))
                parsed = document(path)
                if parsed is None:
                    continue
                self.assertEqual(validator.is_valid(parsed), path.name in beyond_a_schema)
                judged += 1
        return judged

    def refuse_each(self, command, documents, validator, seen_by_schema):
        """The program refuses every document on standard input; the schema all of them, or none when it can not see why."""
        for name, value in documents.items():
            with self.subTest(name):
                self.assertEqual(validator.is_valid(value), not seen_by_schema)
                self.assertIn("standard input: ", self.complaint_of(command, "-", stdin=json.dumps(value).encode()))


def examples_of(form):
    """The examples of the documentation that are of one format."""
    return [p for p in sorted((ROOT / "docs/examples").glob("*.json")) if json.loads(p.read_text()).get("format") == form]


def document(path):
    """The document, or None when it is no JSON at all (strictly: no NaN, no infinity)."""
    def refuse(word):
        raise ValueError(word)

    try:
        return json.loads(path.read_bytes().decode("utf-8"), parse_constant=refuse)
    except (ValueError, RecursionError):
        return None


class ProgramTest(unittest.TestCase):
    """Assertions about one run of the program."""

    maxDiff = None

    def assert_ran(self, done, status):
        self.assertEqual(done.returncode, status, f"stdout:\n{done.stdout}\nstderr:\n{done.stderr}")
        self.assertNotIn("Sanitizer", done.stderr)
        self.assertNotIn("runtime error", done.stderr)

    def text_of(self, *arguments, status=0, **more):
        done = run(*arguments, **more)
        self.assert_ran(done, status)
        self.assertEqual(done.stderr, "")
        return done.stdout

    def json_of(self, *arguments, status=0, **more):
        return json.loads(self.text_of(*arguments, "--json", status=status, **more))

    def complaint_of(self, *arguments, **more):
        """The one line on stderr of a run that must be refused with status 2."""
        done = run(*arguments, **more)
        self.assert_ran(done, 2)
        self.assertEqual(done.stdout, "")
        lines = done.stderr.splitlines()
        self.assertEqual(len(lines), 1, done.stderr)
        self.assertTrue(done.stderr.endswith("\n"))
        self.assertRegex(lines[0], r"^pumpwright: .+; valid: .+$")
        return lines[0]
