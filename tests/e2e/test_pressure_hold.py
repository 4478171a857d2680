"""`pumpwright pressure-hold`: tests worked out by hand, the published example, its schema, and what is refused."""

import json
import math
import unittest

import jsonschema

from harness import ROOT, ProgramTest

SCHEMA = json.loads((ROOT / "docs/pressure-hold.schema.json").read_text())
EXAMPLE = ROOT / "docs/examples/pressure-hold-greenhouse.json"


def held(start="10 bar(g)", end="9 bar(g)", start_t="20 °C", end_t="20 °C", **more):
    return {"format": "pumpwright-pressure-hold", "version": 1, "name": "by hand",
            "rule": {"name": "own", "own": "10 bar(g)"}, "parts": [{"name": "casing", "rating": "16 bar(g)"}],
            "seal": {"fitted": False},
            "medium": {"kind": "liquid", "liquid": {"name": "water"}, "volume": "5 L", "bulk_modulus": "2 GPa",
                       "bulk_modulus_error": "0 %", "expansion_error": "0 %"},
            "gauge": {"range": "20 bar(g)", "error_of_range": "0 %", "reads_to": "0 bar"}, "vented": True, "isolated": True,
            "readings": {"start": {"pressure": start, "temperature": start_t}, "end": {"pressure": end, "temperature": end_t},
                         "held": "10 min", "temperature_error": "0 K", "volume_error": "0 %", "leak_seen": False}, **more}


class PressureHold(ProgramTest):
    def sheet(self, file, status=0):
        jsonschema.validate(file, SCHEMA, jsonschema.Draft202012Validator)
        return self.json_of("pressure-hold", "-", status=status, stdin=json.dumps(file).encode())

    def test_the_schema_is_a_schema(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    def test_a_drop_is_a_volume_through_the_bulk_modulus(self):
        got = self.sheet(held(leak_limit="1 mL/min"))
        self.assertAlmostEqual(got["leak"]["leak_m3_s"], 0.005 * 1e5 / 2e9 / 600, delta=1e-15)
        self.assertEqual((got["verdict"], got["reason"]), ("pass", "leak-under-limit"))
        self.assertEqual(self.sheet(held(leak_limit="0.01 mL/min"), status=1)["reason"], "leak-over-limit")

    def test_cooling_is_no_leak_and_its_doubt_leaves_a_small_limit_open(self):
        file = held(end="9.2 bar(g)", end_t="19.8 °C", leak_limit="0.01 mL/min")
        file["readings"]["temperature_error"] = "0.2 K"
        got = self.sheet(file, status=1)
        self.assertEqual((got["verdict"], got["reason"]), ("unproven", "leak-in-doubt"))
        heat = got["expansion_1_K"] * 2e9 * 0.2
        self.assertAlmostEqual(got["leak"]["drop_by_temperature_Pa"], heat, delta=1)
        u = 0.005 * got["expansion_1_K"] * 0.2 / math.sqrt(3) * math.sqrt(2) / 600
        self.assertAlmostEqual(got["leak"]["leak_u_m3_s"], u, delta=1e-3 * u)

    def test_the_seals_static_rating_caps_the_test(self):
        got = self.sheet(held(start="8 bar(g)", end="8 bar(g)", seal={"fitted": True, "static_rating": "8 bar(g)"}))
        self.assertAlmostEqual(got["pressure_Pa"], 8e5, delta=1e-3)
        self.assertIn("seal", got["limited_by"])
        self.assertEqual(self.sheet(held(seal={"fitted": True, "static_rating": "8 bar(g)"}), status=1)["reason"], "over-rating")

    def test_what_keeps_the_readings_from_proving_anything(self):
        cases = (({"vented": False}, "not-vented"), ({"isolated": False}, "not-isolated"))
        for change, reason in cases:
            got = self.sheet(held(**change), status=1)
            self.assertEqual((got["verdict"], got["reason"]), ("unproven", reason))
        self.assertEqual(self.sheet(held(start="9.5 bar(g)"), status=1)["reason"], "pressure-short")
        short = held()
        short["readings"]["held"] = "9 min"
        self.assertEqual(self.sheet(short, status=1)["reason"], "too-short")
        seen = held()
        seen["readings"]["leak_seen"] = True
        self.assertEqual((self.sheet(seen, status=1)["verdict"]), "fail")
        planned = held()
        planned.pop("readings")
        self.assertIsNone(self.sheet(planned, status=1)["verdict"])

    def test_a_gas_is_held_by_the_gas_law_and_warned_about(self):
        file = held(medium={"kind": "gas", "volume": "5 L"}, start="4 bar(g)", end="3.98 bar(g)", end_t="19 °C",
                    rule={"name": "own", "own": "4 bar(g)"})
        got = self.sheet(file)
        p1, p2 = 4e5 + 101325, 3.98e5 + 101325
        leak = 0.005 * (p1 - p2 * 293.15 / 292.15) / (600 * 101325)
        self.assertAlmostEqual(got["leak"]["leak_m3_s"], leak, delta=1e-12)
        self.assertAlmostEqual(got["energy_J"], p1 * 0.005 / 0.4 * (1 - (101325 / p1) ** (0.4 / 1.4)), delta=1e-6)
        text = self.text_of("pressure-hold", "-", stdin=json.dumps(file).encode())
        self.assertIn("GAS", text)
        self.assertIn("kills", text)

    def test_the_published_example(self):
        got = self.sheet(json.loads(EXAMPLE.read_text()))
        self.assertEqual(got["verdict"], "pass")
        self.assertIn("seal", got["limited_by"])
        self.assertGreater(got["energy_of_gas_J"], 10 * got["energy_J"])
        text = self.text_of("pressure-hold", str(EXAMPLE))
        for words in ("PASS", "Relief valve", "prove zero", "psig", "by temperature", "Local codes"):
            self.assertIn(words, text)

    def test_what_can_not_be_used_is_named_with_its_place(self):
        def with_pressure(file):
            file["readings"]["start"]["pressure"] = "21 bar(g)"

        cases = [(lambda f: f["rule"].pop("own"), "own"),
                 (lambda f: f["seal"].update(fitted=True), "/seal"),
                 (lambda f: f["seal"].update(static_rating="5 bar(g)"), "/seal/static_rating"),
                 (lambda f: f.update(parts=[]), "parts"),
                 (with_pressure, "/readings/start/pressure"),
                 (lambda f: f["medium"].update(kind="gas"), "/medium/liquid"),
                 (lambda f: f["medium"].update(trapped_air="6 L"), "trapped_air"),
                 (lambda f: f["readings"].update(held="0 s"), "/readings/held"),
                 (lambda f: f.update(isolated="yes"), "/isolated")]
        for change, place in cases:
            file = held()
            change(file)
            self.assertIn(place, self.complaint_of("pressure-hold", "-", stdin=json.dumps(file).encode()))


if __name__ == "__main__":
    unittest.main()
