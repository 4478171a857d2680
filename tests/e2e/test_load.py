"""A small shop full of tablets: nothing is lost, nothing comes twice. What it costs is measured by hand, see docs/store.md."""

import json
import os
import pathlib
import subprocess
import tempfile
import unittest

from harness import ENVIRONMENT, PROGRAM, ROOT


def load_program():
    """Built beside the program or, when that was built without benchmarks, by the release build."""
    places = (pathlib.Path(PROGRAM).resolve().parents[1] / "bench" / "load_tablets", ROOT / "build" / "release" / "bench" / "load_tablets")
    return next((str(place) for place in places if place.exists()), None)


@unittest.skipIf(load_program() is None, "the load program has not been built (PUMPWRIGHT_BENCH)")
class Load(unittest.TestCase):
    def load(self, *arguments, program=PROGRAM, tablets=8, tamper=""):
        with tempfile.TemporaryDirectory(prefix="pumpwright-load-") as directory:
            command = [load_program(), "--program", str(program), "--directory", os.path.join(directory, "load"), "--demo", str(ROOT / "demo"),
                       "--tablets", str(tablets), "--json", *arguments]
            environment = {**ENVIRONMENT, "PUMPWRIGHT": str(PROGRAM), "PUMPWRIGHT_TAMPER": tamper}
            ran = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, timeout=600)
        self.assertIn(ran.returncode, (0, 1), ran.stderr)
        return ran.returncode, json.loads(ran.stdout)

    def assert_nothing_lost_or_doubled(self, status, figures):
        self.assertEqual(figures["faults"], {"count": 0, "first": []})
        self.assertEqual(status, 0)
        self.assertEqual(figures["tablets"], 8)
        self.assertGreaterEqual(figures["events"], figures["tablets"])
        # Two tablets at each job, and each hears of all that happens to it.
        self.assertEqual(figures["messages"], 2 * figures["events"])
        self.assertGreater(figures["peak_resident_mib"], 0)

    def test_tablets_that_write_as_fast_as_they_can_lose_and_double_nothing(self):
        status, figures = self.load("--seconds", "5")
        self.assert_nothing_lost_or_doubled(status, figures)
        self.assertGreater(figures["resent"], 0)
        self.assertGreater(figures["plain_events_per_s"], 0)

    def test_tablets_that_pause_and_look_at_their_job_lose_and_double_nothing(self):
        status, figures = self.load("--seconds", "3", "--think-ms", "50", "--views")
        self.assert_nothing_lost_or_doubled(status, figures)
        self.assertGreater(figures["viewed_ms"]["count"], 0)

    def test_the_load_sees_a_message_that_is_missing_or_doubled_and_an_event_that_is_gone(self):
        stand_in = ROOT / "tests" / "e2e" / "tampering_shop.py"
        for tamper, word in (("drop-message", "where"), ("double-message", "where"), ("lose-event", "is lost")):
            with self.subTest(tamper):
                status, figures = self.load("--seconds", "2", program=stand_in, tablets=2, tamper=tamper)
                self.assertEqual(status, 1)
                self.assertEqual(figures["faults"]["count"], len(figures["faults"]["first"]))
                self.assertTrue(any(word in fault for fault in figures["faults"]["first"]), figures["faults"])


if __name__ == "__main__":
    unittest.main()
