"""`pumpwright trim`: cuts worked out by hand, the published example, its schema, and what is refused."""

import json
import math
import unittest

import jsonschema

from harness import ROOT, ProgramTest

SCHEMA = json.loads((ROOT / "docs/trim.schema.json").read_text())
EXAMPLE = ROOT / "docs/examples/trim-aquarium-seawater.json"
G, DENSITY = 9.80665, 998.3


def bench(head="28 m", error="0 bar", **more):
    """H = 40 m - 1e5 Q^2 of equal pipes and level gauges; 200 mm of impeller."""
    points = [{"flow": f"{q!r} m3/s", "suction": "0 bar(g)", "discharge": f"{(40 - 1e5 * q * q) * DENSITY * G!r} Pa(g)",
               "speed": "2900 rpm", "temperature": "20 °C"} for q in (0.0015 * i for i in range(9))]
    test = {"liquid": {"name": "water"}, "rated_speed": "2900 rpm",
            "suction": {"gauge": "suction", "height": "0 m", "bore": "100 mm"},
            "discharge": {"gauge": "discharge", "height": "0 m", "bore": "100 mm"}, "flow_meter": "meter",
            "tachometer": "tachometer", "points": points,
            "instruments": [{"id": "suction"}, {"id": "discharge", "error": error}, {"id": "meter"}, {"id": "tachometer"}]}
    return {"format": "pumpwright-trim", "version": 1, "name": "by hand", "test": test,
            "duty": {"flow": "0.01 m3/s", "head": head}, "impeller": {"diameter": "200 mm"}, **more}


class Trim(ProgramTest):
    def sheet(self, file, status=0):
        jsonschema.validate(file, SCHEMA, jsonschema.Draft202012Validator)
        return self.json_of("trim", "-", status=status, stdin=json.dumps(file).encode())

    def test_the_schema_is_a_schema(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    def test_the_cut_by_the_rule_and_the_first_one(self):
        got = self.sheet(bench(error="0.05 bar"))
        self.assertEqual(got["advice"], "cut")
        # 40 R^2 - 10 = 28
        nominal, first = got["plan"]["nominal"], got["plan"]["first"]
        self.assertAlmostEqual(nominal["diameter_m"], 0.2 * math.sqrt(38 / 40), delta=2e-5)
        self.assertAlmostEqual(nominal["undershoot"], 0.5, delta=1e-3)
        self.assertAlmostEqual(first["undershoot"], 0.05, delta=1e-4)
        # u: gauge error rectangular, and 15 % of the change in head
        change = got["plan"]["head_now_m"] - first["head_m"]
        # R^2 of the first cut scales the gauge's share
        measured = first["factor"] ** 2 * 5000 / (DENSITY * G) / math.sqrt(3)
        self.assertAlmostEqual(first["head_u_m"], math.hypot(measured, 0.15 * change), delta=2e-3)
        self.assertAlmostEqual(first["head_m"] - 28, 1.6448536 * first["head_u_m"], delta=2e-3)

    def test_when_there_is_nothing_to_cut(self):
        self.assertEqual(self.sheet(bench("31 m"), status=1)["advice"], "too-little")
        self.assertEqual(self.sheet(bench("29.95 m", error="0.1 bar"), status=1)["advice"], "leave")

    def test_the_rule_ends_before_the_cut(self):
        got = self.sheet(bench("20 m", impeller={"diameter": "200 mm", "inlet_diameter": "90 mm"},
                               cut={"rule": "reduced-diameter"}), status=1)
        self.assertEqual((got["advice"], got["plan"]["rule_range"]), ("outside-rule", "cut-too-deep"))
        self.assertAlmostEqual(got["limit_diameter_m"], 0.19, delta=1e-12)

    def test_the_published_example(self):
        got = self.json_of("trim", str(EXAMPLE))
        self.assertEqual(got["advice"], "cut")
        text = self.text_of("trim", str(EXAMPLE))
        for words in ("can not be undone", "first cut", "Balance", "mm", "m³/h", "remembered"):
            self.assertIn(words, text)

    def test_what_can_not_be_used_is_named_with_its_place(self):
        for change, place in (({"duty": {"flow": "0.02 m3/s", "head": "20 m"}}, "flow"),
                              ({"cut": {"rule": "reduced-diameter"}}, "inlet_diameter"),
                              ({"cut": {"undershoot": "60 %"}}, "/cut/undershoot"),
                              ({"impeller": {"diameter": "200 mm", "least_diameter": "210 mm"}}, "least_diameter")):
            line = self.complaint_of("trim", "-", stdin=json.dumps({**bench(), **change}).encode())
            self.assertIn(place, line)


if __name__ == "__main__":
    unittest.main()
