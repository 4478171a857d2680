"""`pumpwright cause`: the published example, thin evidence, a job with its own numbers, and what is refused."""

import json
import shutil
import tempfile
import unittest
from pathlib import Path

import jsonschema

from harness import ROOT, ProgramTest

SCHEMA = json.loads((ROOT / "docs/strip-down.schema.json").read_text())
JOB_SCHEMA = json.loads((ROOT / "docs/job.schema.json").read_text())
EXAMPLE = ROOT / "docs/examples/strip-down-greenhouse.json"


def strip_down(**more):
    return {"format": "pumpwright-strip-down", "version": 1, "name": "by hand", **more}


class Cause(ProgramTest):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder)

    def answer(self, file, status):
        jsonschema.validate(file, SCHEMA, jsonschema.Draft202012Validator)
        return self.json_of("cause", "-", status=status, stdin=json.dumps(file).encode())

    def test_the_schema_is_a_schema(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    def test_the_published_example(self):
        got = self.answer(json.loads(EXAMPLE.read_text()), status=0)
        self.assertEqual((got["told"], got["named"]), (True, ["flashing"]))
        self.assertAlmostEqual(got["track"]["excess_m"], 2e-5, delta=1e-12)
        self.assertIn({"finding": "track-wide", "seen": "not-there", "said_by": "width"}, got["evidence"])
        first = got["causes"][0]
        self.assertEqual(first["evidence"][0]["finding"], "margin-small")
        self.assertIn("trade association", first["evidence"][0]["source"])
        self.assertAlmostEqual(sum(c["probability"] > 0.5 for c in got["causes"]), 1)
        text = " ".join(self.text_of("cause", str(EXAMPLE)).split())
        for words in ("Most likely: liquid boiled between the faces", "What to change", "Look next for", "ran true", "own estimates"):
            self.assertIn(words, text)
        spanish = " ".join(self.text_of("cause", str(EXAMPLE), "--language", "es").split())
        for words in ("Lo más probable: el líquido hirvió", "Qué cambiar", "Buscar ahora", "giró centrada"):
            self.assertIn(words, spanish)

    def test_thin_evidence_does_not_tell(self):
        got = self.answer(strip_down(found=["heat-checks"]), status=1)
        self.assertEqual((got["told"], got["named"]), (False, []))
        self.assertIn("Can not tell yet", got["headline"])
        self.assertGreater(got["next"][0]["bits"], got["next"][-1]["bits"])
        nothing = self.answer(strip_down(), status=1)
        self.assertIn("nothing that points to a cause", nothing["headline"])

    def test_a_finding_that_is_not_there_speaks_against(self):
        seen = self.answer(strip_down(found=["heat-checks"], not_found=["lost-prime"]), status=1)
        dry = next(c for c in seen["causes"] if c["cause"] == "dry-running")
        against = next(e for e in dry["evidence"] if e["finding"] == "lost-prime")
        self.assertLess(against["weight"], 0)
        self.assertEqual(against["seen"], "not-there")

    def test_a_job_brings_its_own_numbers(self):
        job = json.loads((ROOT / "demo/greenhouse-circulator.json").read_text())
        line = self.complaint_of("cause", "-", stdin=json.dumps(job).encode())
        self.assertIn("no strip-down", line)
        job["make_up"]["sheets"]["strip-down"] = {"complaint": "leaks again", "hours_run": "5100 h"}
        job["events"] = [e for e in job["events"] if not e["event"].startswith("hold")]
        job["events"].append({"event": "reading", "id": "s1", "check": "strip-down", "time": "2026-11-18T08:00:00Z", "actor": "L.H.",
                              "sheet": {"found": [{"finding": "elastomer-cut", "said": "cut or nicked"}, "leaks-at-once"]}})
        jsonschema.validate(job, JOB_SCHEMA, jsonschema.Draft202012Validator)
        got = self.json_of("cause", "-", status=0, stdin=json.dumps(job).encode())
        self.assertEqual(got["named"], ["assembly-damage"])
        by = {e["finding"]: (e["seen"], e["said_by"]) for e in got["evidence"]}
        self.assertEqual(by["margin-small"], ("not-there", "check"))
        self.assertEqual(by["elastomer-cut"], ("there", "hand"))
        self.assertEqual(got["unknown"], [])
        letter = self.folder / "letter.pdf"
        self.text_of("cause", "-", "--letter", str(letter), stdin=json.dumps(job).encode())
        self.assertEqual(letter.read_bytes()[:5], b"%PDF-")
        judged = self.json_of("judge", "-", status=1, stdin=json.dumps(job).encode())
        found = next(c for c in judged["checks"] if c["check"] == "strip-down")
        self.assertEqual(found["verdict"], "pass")

    def test_a_test_that_is_read_with_an_instrument_names_it(self):
        job = json.loads((ROOT / "demo/greenhouse-circulator.json").read_text())
        for event in job["events"]:
            if "sheet" in event:
                del event["instrument"]
        self.assertIn("instrument", self.complaint_of("judge", "-", stdin=json.dumps(job).encode()))

    def test_schema_and_program_refuse_the_same_forms(self):
        validator = jsonschema.Draft202012Validator(SCHEMA)
        for more in ({"found": ["Heat checks"]}, {"found": [{"said": "cracks"}]}, {"found": "heat-checks"}, {"found": [{"finding": "heat-checks", "how": "x"}]},
                     {"measured": {"narrow_face": "3 mm"}}, {"measured": {"read_to": "1 mm"}}, {"measured": {"width": "3 mm"}}, {"version": 2},
                     {"complaint": 7}, {"nothing": 1}):
            file = {**strip_down(), **more}
            self.assertFalse(validator.is_valid(file), more)
            self.complaint_of("cause", "-", stdin=json.dumps(file).encode())

    def test_what_can_not_be_used_is_named_with_its_place(self):
        everything = [e["finding"] for e in self.answer(strip_down(), status=1)["next"]]
        for file, place in ((strip_down(found=["heat-cheks"]), "/found/0"),
                            (strip_down(found=["heat-checks"], not_found=["heat-checks"]), "/not_found/0"),
                            (strip_down(measured={"track_width": "3 mm"}), "/measured"),
                            (strip_down(found=everything[:17]), "at most 16"),
                            (strip_down(hours_run="5 mm"), "/hours_run")):
            self.assertIn(place, self.complaint_of("cause", "-", stdin=json.dumps(file).encode()))
        line = self.complaint_of("cause", "-", stdin=json.dumps(strip_down(found=["heat-cheks"])).encode())
        self.assertIn("pumpwright catalog list cause-findings", line)  # and that is where they stand
        self.assertIn("heat-checks", self.text_of("catalog", "list", "cause-findings"))
        self.assertIn("--letter", self.complaint_of("cause", str(EXAMPLE), "--letter", str(self.folder / "l.pdf")))


if __name__ == "__main__":
    unittest.main()
