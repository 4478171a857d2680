"""Older records taken in by the command line: what fits, what does not, once only; and the lives that come of them."""

import csv
import io
import json
import tempfile
import unittest
from pathlib import Path

import jsonschema

from harness import ROOT, run

COLUMNS = ROOT / "demo/ledger.columns"
LEDGER = ROOT / "demo/ledger.csv"
HEADER = "Job,S/N,Pump,Customer,Seal,In,Out,Why in,Kind,Found,Done,Sweep,End float\n"


class Import(unittest.TestCase):
    def setUp(self):
        directory = tempfile.TemporaryDirectory()
        self.addCleanup(directory.cleanup)
        self.directory = Path(directory.name)
        self.data = str(self.directory / "shop")
        done = run("demo", "--data", self.data, "--jobs", str(ROOT / "demo"))
        self.assertEqual(done.returncode, 0, done.stderr)

    def bring_in(self, text, *more):
        file = self.directory / "book.csv"
        file.write_text(text)
        done = run("import", str(file), "--columns", str(COLUMNS), "--data", self.data, "--by", "L.H.", "--json", *more)
        self.assertIn(done.returncode, (0, 1), done.stderr)
        return json.loads(done.stdout), done.returncode

    def lives(self):
        done = run("lives", "--data", self.data)
        self.assertEqual(done.returncode, 0, done.stderr)
        return list(csv.DictReader(io.StringIO(done.stdout)))

    def test_the_columns_of_the_demonstration_keep_to_their_schema(self):
        schema = json.loads((ROOT / "docs/old-columns.schema.json").read_text())
        jsonschema.Draft202012Validator.check_schema(schema)
        jsonschema.validate(json.loads(COLUMNS.read_text()), schema)
        for wrong in ({"serial": "S/N"}, {"serial": "S/N", "came_in": "In", "speed": "x"}, {"serial": "S/N", "came_in": "In", "dates": "soon"}):
            with self.assertRaises(jsonschema.ValidationError):
                jsonschema.validate(wrong, schema)
            file = self.directory / "columns.json"
            file.write_text(json.dumps(wrong))
            done = run("import", str(LEDGER), "--columns", str(file), "--look")
            self.assertEqual(done.returncode, 2, done.stdout)
            self.assertIn("columns.json", done.stderr)

    def test_a_look_needs_no_shop_and_keeps_nothing(self):
        before = self.lives()
        done = run("import", str(LEDGER), "--columns", str(COLUMNS), "--look")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("only a look", done.stdout)
        self.assertIn('"new"', done.stdout)  # a word nobody named
        self.assertEqual(self.lives(), before)

    def test_the_ledger_is_in_the_demonstration_already(self):
        done = run("import", str(LEDGER), "--columns", str(COLUMNS), "--data", self.data, "--by", "L.H.", "--json")
        answer = json.loads(done.stdout)
        self.assertEqual((answer["taken"], answer["wrong_count"]), (0, 0))
        self.assertEqual(answer["known"], answer["fit"])

    def test_rows_that_fit_are_taken_and_the_others_told(self):
        text = HEADER + (
            "B-1,GH-0800,circulator,greenhouse,EPDM,2/1/2024,2/3/2024,new build,new,,built new,3,4\n"
            "B-2,GH-0800,circulator,greenhouse,EPDM,13/1/2024,,leaks,repair,,,,\n"
            "B-3,GH-0800,circulator,greenhouse,EPDM,6/1/2024,6/3/2024,leaks,repair,swollen,new seal,4,5\n")
        answer, status = self.bring_in(text)
        self.assertEqual((answer["fit"], answer["taken"], answer["known"], answer["wrong_count"], status), (2, 2, 0, 1, 1))
        self.assertEqual((answer["wrong"][0]["place"], answer["wrong"][0]["field"]), ("line 3", "In"))
        corrected, status = self.bring_in(text.replace("13/1/2024,", "3/13/2024,"))
        self.assertEqual((corrected["taken"], corrected["known"], status), (1, 2, 0))
        mine = [row for row in self.lives() if row["pump"] == "GH-0800"]
        self.assertEqual([row["job"] for row in mine], ["B-1", "B-3"])
        self.assertEqual((mine[0]["event"], mine[0]["time"]), ("returned", "39 d"))  # 3 February to 13 March 2024
        self.assertEqual(mine[1]["event"], "running")
        self.assertAlmostEqual(float(mine[0]["impeller_sweep_um"]), 3 * 25.4, places=3)

    def test_lives_are_what_returns_reads(self):
        file = self.directory / "lives.csv"
        file.write_text(run("lives", "--data", self.data).stdout)
        done = run("returns", str(file), "--clock", "calendar", "--group", "seal", "--covariate", "impeller_sweep_um", "--json")
        self.assertEqual(done.returncode, 0, done.stderr)
        found = json.loads(done.stdout)
        rows = self.lives()
        self.assertEqual(found["rows"], len(rows))
        self.assertEqual(found["replaced"], sum(row["event"] == "replaced" for row in rows))
        self.assertGreater(found["returned"], 20)
        self.assertIsNotNone(found["weibull"])

    def test_only_a_lead_hand_takes_them_in(self):
        for who in ("J.M.", "X.Y."):
            done = run("import", str(LEDGER), "--columns", str(COLUMNS), "--data", self.data, "--by", who)
            self.assertEqual(done.returncode, 2)
            self.assertIn("lead hands", done.stderr)
        self.assertIn("--by", run("import", str(LEDGER), "--columns", str(COLUMNS), "--data", self.data).stderr)

    def test_the_store_still_proves_itself(self):
        done = run("rebuild", "--data", self.data)
        self.assertIn("are what they were", done.stdout)
        copy = self.directory / "copy.pwbackup"
        self.assertIn("every chain holds", run("backup", "--data", self.data, "--to", str(copy)).stdout)


if __name__ == "__main__":
    unittest.main()
