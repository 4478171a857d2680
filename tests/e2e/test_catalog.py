"""`pumpwright catalog`: every value with its source."""

import json
import re
import shutil
import tempfile
import unittest
from pathlib import Path

from harness import ROOT, ProgramTest


class Catalog(ProgramTest):
    def test_every_table_can_be_listed_and_every_row_shown_with_a_source(self):
        tables = self.json_of("catalog", "list")["tables"]
        self.assertGreater(len(tables), 10)
        for table in tables:
            rows = self.json_of("catalog", "list", table["table"])["rows"]
            self.assertEqual(len(rows), table["rows"])
            for row in rows:
                for value in row["values"]:
                    self.assertTrue(value["source"]["document"], (table["table"], row["row"], value["column"]))
                    self.assertIn(value["source"]["obtained"], ("read", "remembered", "common-practice", "shop-rule"))

    def test_a_row_shows_values_in_si_and_as_written(self):
        got = self.json_of("catalog", "show", "fastener-threads", "1/2-13")
        values = {v["column"]: v for v in got["values"]}
        self.assertEqual(values["diameter"]["text"], "1/2 in")
        self.assertEqual(values["diameter"]["value_si"], 0.0127)
        self.assertEqual(values["series"]["value"], "UNC")
        text = self.text_of("catalog", "show", "fastener-threads", "1/2-13")
        self.assertRegex(text, r"nominal diameter +1/2 in")
        self.assertRegex(text, r"source: .+\((read|remembered)\)")

    def test_a_row_names_the_sources_that_disagree(self):
        text = self.text_of("catalog", "show", "nut-factor", "dry")
        self.assertIn('another source: row dry, as received', text)
        self.assertIn("another source, preferred: row dry", self.text_of("catalog", "show", "nut-factor", "dry, as received"))

    def test_an_unknown_table_or_row_is_answered_with_those_there_are(self):
        self.assertIn("fastener-threads", self.complaint_of("catalog", "list", "threads"))
        self.assertIn("1/2-13", self.complaint_of("catalog", "show", "fastener-threads", "M99"))

    def test_a_directory_takes_the_place_of_the_built_in_catalog(self):
        with tempfile.TemporaryDirectory() as folder:
            data = Path(folder) / "data"
            shutil.copytree(ROOT / "catalog" / "data", data)
            built_in = self.json_of("catalog", "list")["digest"]
            self.assertEqual(self.json_of("catalog", "list", "--catalog", str(data))["digest"], built_in)
            file = data / "nut_factor.toml"
            file.write_text(file.read_text().replace("k_high = 0.27", "k_high = 0.30"))
            self.assertNotEqual(self.json_of("catalog", "list", "--catalog", str(data))["digest"], built_in)
            got = self.json_of("torque", "--thread", "1/2-13", "--grade", "SAE 5", "--condition", "dry", "--catalog", str(data))
            self.assertEqual(got["nut_factor_highest"], 0.3)

    def test_a_row_without_a_source_is_refused_by_file_and_place(self):
        with tempfile.TemporaryDirectory() as folder:
            file = Path(folder) / "x.toml"
            text = (ROOT / "catalog" / "data" / "nut_factor.toml").read_text()
            file.write_text(re.sub(r'(^dry = .*), source = "table" \}', r"\1 }", text, flags=re.M))
            line = self.complaint_of("catalog", "list", "--catalog", folder)
            self.assertIn("x.toml", line)
            self.assertIn("source", line)

    def test_a_directory_that_is_none_is_refused(self):
        with tempfile.TemporaryDirectory() as folder:
            self.assertIn("--catalog", self.complaint_of("catalog", "list", "--catalog", folder))
            self.assertIn("--catalog", self.complaint_of("catalog", "list", "--catalog", folder + "/none"))


if __name__ == "__main__":
    unittest.main()
