"""The published schema of the chain file and the program's decoder agree on one corpus of files."""

import json
import unittest
from pathlib import Path

import jsonschema

from harness import HERE, ROOT, ProgramTest, document, run

SCHEMA = json.loads((ROOT / "docs/chain.schema.json").read_text())
GOOD = sorted((HERE / "good").glob("chain-*.json")) + [
    path for path in sorted((ROOT / "docs/examples").glob("*.json")) if document(path)["format"] == "pumpwright-chain"]
BAD = sorted((HERE / "bad").glob("chain-*.json"))

# What a schema can not say, with the reason.
BEYOND_A_SCHEMA = {
    "chain-two-links-of-one-name.json": "names are compared with each other",
    "chain-upper-below-lower.json": "two texts are compared as lengths",
    "chain-ambiguous-comma.json": "the grammar of numbers is the parser's",
    "chain-beyond-all-measure.json": "a bound on a text is a bound on its value",
    "chain-repeated-key.json": "a schema sees the document after its keys were merged",
}


class ChainSchema(ProgramTest):
    def test_the_schema_is_a_schema(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    def test_both_accept_every_good_file(self):
        self.assertGreaterEqual(len(GOOD), 5)
        for path in GOOD:
            with self.subTest(path.name):
                jsonschema.validate(document(path), SCHEMA, jsonschema.Draft202012Validator)
                done = run("stack", str(path), "--samples", "1000", "--json")
                self.assertIn(done.returncode, (0, 1), done.stderr)
                self.assertEqual(len(json.loads(done.stdout)["share"]), len(document(path)["links"]))

    def test_both_refuse_every_bad_file_that_a_schema_can_judge(self):
        self.assertGreaterEqual(len(BAD), 25)
        judged = 0
        for path in BAD:
            with self.subTest(path.name):
                self.complaint_of("stack", str(path))
                parsed = document(path)
                if parsed is None:
                    continue
                valid = jsonschema.Draft202012Validator(SCHEMA).is_valid(parsed)
                self.assertEqual(valid, path.name in BEYOND_A_SCHEMA)
                judged += 1
        self.assertGreaterEqual(judged, 20)


if __name__ == "__main__":
    unittest.main()
