"""The published schema of the job file and the program's decoder agree on one corpus of files."""

import json
import unittest

import jsonschema

from harness import HERE, ROOT, ProgramTest, SchemaAndDecoder, document, run

VALIDATOR = jsonschema.Draft202012Validator(json.loads((ROOT / "docs/job.schema.json").read_text()))
GOOD = sorted((ROOT / "demo").glob("*.json"))
BAD = sorted((HERE / "bad").glob("job-*.json"))

# What a schema can not say: the grammar and the kinds of written quantities, days that exist, references between parts
# of the document and into the catalog, what a sweep's places must be, keys that were merged before it sees them.
BEYOND_A_SCHEMA = {
    "job-bare-pressure.json", "job-below-absolute-zero.json", "job-dimension-in-celsius.json",
    "job-instrument-graduation-zero.json", "job-instrument-twice.json", "job-instrument-unit-unknown.json",
    "job-material-unknown.json", "job-missing-unit.json", "job-negative-diameter.json",
    "job-reading-ambiguous-comma.json", "job-reading-id-twice.json", "job-reading-in-celsius.json",
    "job-reading-not-finite.json", "job-reading-of-the-wrong-kind.json", "job-repeated-key.json",
    "job-replaced-reading-unknown.json", "job-size-negative-diameter.json", "job-speed-in-hertz.json",
    "job-sweep-angle-repeated.json", "job-sweep-of-two-points.json", "job-time-on-no-day.json",
    "job-unknown-check.json", "job-unknown-frame.json", "job-unknown-instrument.json", "job-unknown-step.json",
    "job-seal-faces-inside-out.json", "job-seal-spring-in-metres.json", "job-glycol-of-more-than-all.json",
    "job-seal-pv-in-psi.json", "job-seal-standing-head-without-mass.json",
}  # fmt: skip


class JobSchema(SchemaAndDecoder, ProgramTest):
    def test_the_schema_is_a_schema(self):
        jsonschema.Draft202012Validator.check_schema(VALIDATOR.schema)

    def test_both_accept_every_demonstration_job(self):
        self.assertEqual(len(GOOD), 3)
        for path in GOOD:
            with self.subTest(path.name):
                VALIDATOR.validate(document(path))
                self.assertIn(run("judge", str(path)).returncode, (0, 1))

    def test_both_refuse_every_bad_file_that_a_schema_can_judge(self):
        self.assertGreaterEqual(self.refuse_together("judge", BAD, VALIDATOR, BEYOND_A_SCHEMA), 35)


if __name__ == "__main__":
    unittest.main()
