"""`pumpwright plan` and `pumpwright judge` on the demonstration jobs."""

import csv
import json
import shutil
import subprocess
import tempfile
import unittest
import xml.etree.ElementTree
from pathlib import Path

import jsonschema

from harness import ROOT, ProgramTest, run

GREENHOUSE = "demo/greenhouse-circulator.json"
SCHEMA = json.loads((ROOT / "docs/job.schema.json").read_text())
DEMOS = ("demo/greenhouse-circulator.json", "demo/aquarium-seawater.json", "demo/orchard-wash.json")


class Job(ProgramTest):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder)

    def test_every_demonstration_job_is_judged_and_the_status_says_whether_all_pass(self):
        for demo in DEMOS:
            done = run("judge", demo, "--json")
            got = json.loads(done.stdout)
            self.assert_ran(done, 0 if got["all_pass"] else 1)
            counts = {word: sum(c["verdict"] == word for c in got["checks"]) for word in ("pass", "fail", "unproven", "not-taken")}
            self.assertEqual(got["counts"], counts)
            self.assertEqual(got["all_pass"], counts["pass"] == len(got["checks"]))

    def test_a_verdict_carries_value_limit_source_and_reason(self):
        got = self.json_of("judge", GREENHOUSE)
        sweep = next(c for c in got["checks"] if c["check"] == "impeller-sweep")
        self.assertEqual(sweep["verdict"], "pass")
        self.assertEqual(sweep["limits"][0]["upper"]["text"], "7 thou")
        self.assertTrue(sweep["limits"][0]["source"]["document"])
        self.assertLess(sweep["readings"][0]["value_si"], 7 * 25.4e-6)
        self.assertGreater(sweep["readings"][0]["conformance_probability"], 0.95)

    def test_the_text_names_what_is_open_and_what_settles_it(self):
        text = self.text_of("judge", "demo/orchard-wash.json", status=1)
        self.assertRegex(text, r"FAIL +Impeller sweep")
        self.assertIn("would settle it:", text)
        self.assertIn("Open points", text)
        self.assertIn("No snapshot is frozen in this job", text)

    def test_spanish_is_spanish_throughout(self):
        text = self.text_of("judge", "demo/aquarium-seawater.json", "--language", "es", status=1)
        self.assertIn("Puntos abiertos", text)
        for word in ("PASS", "Open points", "at most", "standard", "remembered,"):
            self.assertNotIn(word, text)
        self.assertIn("PRECAUCIÓN", self.text_of("plan", GREENHOUSE, "--language", "es"))

    def test_a_plan_shows_cautions_limits_ranks_and_sources(self):
        text = self.text_of("plan", GREENHOUSE)
        self.assertIn("! CAUTION:", text)
        self.assertRegex(text, r"\[ \] impeller-sweep: .*")
        self.assertRegex(text, r"at most 7 thou +simple 4:1 +common practice +decides")
        plan = self.json_of("plan", GREENHOUSE)
        self.assertFalse(plan["frozen"])
        checks = [c["id"] for s in plan["steps"] for c in s["checks"]]
        self.assertEqual(checks, [c["check"] for c in self.json_of("judge", GREENHOUSE)["checks"]])

    def test_a_frozen_job_keeps_its_verdicts_under_a_later_catalog_and_judging_again_shows_the_change(self):
        frozen = str(self.folder / "frozen.json")
        self.text_of("plan", GREENHOUSE, "--freeze", frozen)
        data = self.folder / "data"
        shutil.copytree(ROOT / "catalog/data", data)
        limits = data / "seal_limits.toml"
        before = limits.read_text()
        limits.write_text(before.replace('"7 thou"', '"3 thou"'))
        self.assertNotEqual(limits.read_text(), before)

        as_frozen = self.json_of("judge", frozen)
        self.assertTrue(as_frozen["frozen"])
        later = self.json_of("judge", frozen, "--catalog", str(data))
        self.assertEqual(later, as_frozen)

        again = self.json_of("judge", frozen, "--catalog", str(data), "--again")["again"]
        self.assertNotEqual(again["catalog_digest"], as_frozen["catalog_digest"])
        change = next(c for c in again["changes"] if c["check"] == "impeller-sweep")
        self.assertEqual((change["was"]["verdict"], change["now"]["verdict"]), ("pass", "fail"))
        self.assertIn("3 thou", change["now"]["limit"])
        text = self.text_of("judge", frozen, "--catalog", str(data), "--again")
        self.assertIn("Judged by the snapshot frozen in this job", text)
        self.assertIn("Judged again by the catalog at hand", text)

        unchanged = self.text_of("judge", frozen, "--again")
        self.assertIn("Nothing changed.", unchanged)

    def test_a_job_is_frozen_once(self):
        frozen, twice = str(self.folder / "frozen.json"), str(self.folder / "twice.json")
        self.text_of("plan", GREENHOUSE, "--freeze", frozen)
        self.assertIn("snapshot", self.complaint_of("plan", frozen, "--freeze", twice))
        self.assertFalse(Path(twice).exists())

    def test_the_build_record_is_a_searchable_pdf_and_the_same_every_time(self):
        first, second = self.folder / "first.pdf", self.folder / "second.pdf"
        text = self.text_of("judge", GREENHOUSE, "--report", str(first))
        self.assertIn(f"Build record written to {first}", text)
        self.text_of("judge", GREENHOUSE, "--report", str(second))
        self.assertEqual(first.read_bytes(), second.read_bytes())
        words = subprocess.run(["pdftotext", "-layout", str(first), "-"], capture_output=True, text=True, check=True).stdout
        self.assertIn("G-2117", words)
        self.assertIn("Impeller sweep", words)
        letter = self.folder / "letter.pdf"
        self.text_of("judge", GREENHOUSE, "--report", str(letter), "--paper", "letter", "--language", "es")
        info = subprocess.run(["pdfinfo", str(letter)], capture_output=True, text=True, check=True).stdout
        self.assertIn("612 x 792", info)

    def test_a_bench_test_of_the_job_says_what_its_command_says(self):
        job = json.loads((ROOT / "demo/greenhouse-circulator.json").read_text())
        reading = next(e for e in job["events"] if e.get("check") == "pressure-hold")
        file = {"format": "pumpwright-pressure-hold", "version": 1, "name": "the same",
                **job["make_up"]["sheets"]["pressure-hold"], **reading["sheet"]}
        alone = self.json_of("pressure-hold", "-", stdin=json.dumps(file).encode())

        def check_of(check, status):
            got = self.json_of("judge", "-", status=status, stdin=json.dumps(job).encode())
            return next(c for c in got["checks"] if c["check"] == check)

        leak = check_of("pressure-hold-leak", 0)["readings"][0]
        self.assertEqual(leak["value_si"], alone["leak"]["leak_m3_s"])
        self.assertEqual(leak["standard_uncertainty_si"], alone["leak"]["leak_u_m3_s"])
        reading["sheet"]["isolated"] = False
        held = check_of("pressure-hold", 1)
        self.assertEqual((held["verdict"], held["reason"]), ("unproven", "test-proves-nothing"))
        reading["sheet"]["readings"]["held"] = "soon"
        self.assertIn("reading r36/sheet/readings/held", self.complaint_of("judge", "-", stdin=json.dumps(job).encode()))

    # Which keys of a command's file are read at the bench (None: it has none), and which check it becomes.
    SHEETS = {
        "balance": ("balance", ["sensors", "runs"], "balanced", "meter-1"),
        "alignment": ("align", ["indicator", "dials", "soft_foot"], "aligned", "dial-1"),
        "rotor": ("rotor", [], "deflection-at-seal", ""),
        "performance": ("performance", ["test/points", "npsh/suppression", "driver/lines"], "guarantee", "gauge-1"),
        "vibration": ("vibration", ["overall"], "vibration", "meter-1"),
        "system": ("system", ["motor/measured"], "operating-point", "meter-1"),
    }

    def answer_of(self, *arguments, **more):
        """What the program found, whether all of it passes or not."""
        done = run(*arguments, "--json", **more)
        self.assertIn(done.returncode, (0, 1), done.stderr)
        return json.loads(done.stdout)

    @staticmethod
    def parts_of(file, read_keys):
        """What of a command's file stands in the make-up, and what in the reading."""
        planned = {k: v for k, v in file.items() if k not in ("format", "version", "name", "note")}
        read = {}
        for path in read_keys:
            *above, key = path.split("/")
            holder, into = planned, read
            for part in above:
                holder, into = holder.get(part, {}), into.setdefault(part, {})
            if key in holder:
                into[key] = holder.pop(key)
        return planned, {k: v for k, v in read.items() if v}

    def job_with_sheet(self, sheet, file):
        """The greenhouse job with one more bench test, its step under way and read once."""
        job = json.loads((ROOT / "demo/greenhouse-circulator.json").read_text())
        _, read_keys, check, instrument = self.SHEETS[sheet]
        planned, read = self.parts_of(file, read_keys)
        job["make_up"]["sheets"][sheet] = planned
        if read:
            job["shop"]["instruments"].append({
                "id": "meter-1", "kind": "vibration-meter", "measures": "velocity", "unit": "mm/s", "graduation": "0.01",
                "calibrated": "2026-06-01", "due": "2027-06-01"})
            job["events"] = [e for e in job["events"] if not e["event"].startswith("hold")]
            job["events"].append({"event": "reading", "id": "s1", "check": check, "time": "2026-11-18T11:55:00Z", "actor": "L.H.",
                                  "instrument": instrument, "sheet": read})
        return job

    def test_every_bench_test_of_a_job_says_what_its_command_says(self):
        looked_at = 0
        for sheet, (command, _, check, _) in self.SHEETS.items():
            for path in sorted((ROOT / "docs/examples").glob(f"{command}-*.json")):
                with self.subTest(path.name):
                    alone = self.answer_of(command, str(path))
                    job = self.job_with_sheet(sheet, json.loads(path.read_text()))
                    jsonschema.validate(job, SCHEMA, jsonschema.Draft202012Validator)
                    got = self.answer_of("judge", "-", stdin=json.dumps(job).encode())
                    found = next(c for c in got["checks"] if c["check"] == check)
                    said = alone["verdicts"][0]["verdict"] if sheet == "rotor" else alone["verdict"]
                    self.assertEqual(found["verdict"], said or "not-taken")
                    looked_at += 1
        self.assertGreaterEqual(looked_at, 11)

    def test_the_drawings_are_svg_and_png(self):
        drawings = self.folder / "drawings"
        self.text_of("judge", GREENHOUSE, "--drawings", str(drawings))
        names = sorted(p.name for p in drawings.iterdir())
        self.assertIn("section.svg", names)
        self.assertIn("sweep-impeller-sweep.png", names)
        for path in drawings.iterdir():
            if path.suffix == ".svg":
                xml.etree.ElementTree.parse(path)
            else:
                self.assertEqual(path.read_bytes()[:8], b"\x89PNG\r\n\x1a\n")

    def test_the_readings_come_as_a_table_that_agrees_with_the_verdicts(self):
        table = self.folder / "readings.csv"
        self.text_of("judge", GREENHOUSE, "--readings", str(table))
        with table.open(newline="", encoding="utf-8") as lines:
            rows = list(csv.DictReader(lines))
        judged = {c["check"]: c for c in self.json_of("judge", GREENHOUSE)["checks"]}
        self.assertEqual({r["check"] for r in rows}, set(judged))
        for row in rows:
            (reading,) = [r for r in judged[row["check"]]["readings"] if (r["reading"] or "") == row["reading"]]
            self.assertEqual((row["verdict"], row["reason"], row["as_written"]), (reading["verdict"], reading["reason"], reading["as_written"] or ""))
            if reading["value_si"] is None:
                self.assertEqual((row["value"], row["unit"]), ("", ""))
            else:
                self.assertAlmostEqual(float(row["value"]), reading["value_si"], delta=1e-9 * abs(reading["value_si"]))
        end_float = next(r for r in rows if r["check"] == "end-float")
        self.assertEqual((end_float["job"], end_float["unit"], end_float["instrument"]), ("G-2117", "m", "dial-1"))

    def test_what_can_not_be_written_is_refused(self):
        self.assertIn("--readings", self.complaint_of("judge", GREENHOUSE, "--readings", str(self.folder / "no/such.csv")))
        self.assertIn("--report", self.complaint_of("judge", GREENHOUSE, "--report", str(self.folder / "no/such/dir.pdf")))
        self.assertIn("--report", self.complaint_of("judge", GREENHOUSE, "--report", str(self.folder)))
        file = self.folder / "file"
        file.write_text("in the way")
        self.assertIn("--drawings", self.complaint_of("judge", GREENHOUSE, "--drawings", str(file)))

    def test_a_job_is_read_from_standard_input_too(self):
        data = (ROOT / GREENHOUSE).read_bytes()
        from_pipe = self.json_of("judge", "-", stdin=data)
        from_file = self.json_of("judge", GREENHOUSE)
        from_pipe.pop("file"), from_file.pop("file")
        self.assertEqual(from_pipe, from_file)


if __name__ == "__main__":
    unittest.main()
