"""`pumpwright seal`: the sheet of the demonstration's seal, other conditions, and what makes a seal unfit."""

import json
import math
import unittest

import jsonschema

from harness import ROOT, ProgramTest, run

SCHEMA = json.loads((ROOT / "docs/seal.schema.json").read_text())
GREENHOUSE = ROOT / "demo/greenhouse-circulator.json"
INCH, LBF = 0.0254, 4.4482216152605


def greenhouse():
    return json.loads(GREENHOUSE.read_text())


def reading(job, check):
    return next(e for e in reversed(job["events"]) if e.get("check") == check)


class Seal(ProgramTest):
    def sheet(self, job, *options, status=0):
        done = run("seal", "-", "--json", *options, stdin=json.dumps(job).encode())
        self.assert_ran(done, status)
        got = json.loads(done.stdout)
        jsonschema.validate(got, SCHEMA, jsonschema.Draft202012Validator)
        return got

    def verdict_of(self, sheet, check):
        return next(v for v in sheet["verdicts"] if v["check"] == check)

    def water_at(self, temperature):
        return self.json_of("fluid", "water", "--at", temperature)["saturation_pressure_Pa"]

    def test_the_schema_is_a_schema(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    def test_the_greenhouse_seal_is_fit(self):
        got = self.sheet(greenhouse())
        self.assertEqual(got["verdict"], "pass")
        # (Do² - Db²) / (Do² - Di²) of the sheet's diameters
        self.assertAlmostEqual(got["balance_ratio"], (1.44**2 - 1.19**2) / (1.44**2 - 1.22**2), delta=1e-12)
        # The readings' stack: 1.375 + 1.499 - … lies within a thousandth or two of the sheet's inch.
        self.assertAlmostEqual(got["working_length_m"], INCH, delta=0.01 * INCH)
        force = 22 * LBF + 60 * LBF / INCH * (INCH - got["working_length_m"])
        self.assertAlmostEqual(got["spring_force_N"], force, delta=1e-6)
        self.assertLess(got["energy_residual"], 1e-8)
        speed = 3550 * math.pi / 30
        self.assertAlmostEqual(got["heat_W"], got["friction_torque_Nm"] * speed, delta=1e-6)
        self.assertAlmostEqual(got["margin_ratio"], got["chamber_pressure_Pa"] / got["vapour_pressure_Pa"], delta=1e-9)
        boils_at = self.water_at(f"{got['face_temperature_K']!r} K")
        self.assertAlmostEqual(got["vapour_pressure_Pa"], boils_at, delta=1e-6 * boils_at)
        radii = [p["radius_m"] for p in got["profile"]]
        self.assertEqual(radii, sorted(radii))
        self.assertTrue(1.22 / 2 * INCH < radii[0] and radii[-1] < 1.44 / 2 * INCH)

    def test_hotter_water_with_too_little_suction_is_not_fit_and_the_suction_it_names_is(self):
        job = greenhouse()
        job["make_up"]["service"] = {"fluid": "water", "temperature": "105 degC", "suction_pressure": "0.05 bar(g)"}
        got = self.sheet(job, status=1)
        self.assertEqual(self.verdict_of(got, "vapour-margin")["verdict"], "fail")
        least = got["least_suction_gauge_Pa"]
        self.assertGreater(least, 5000)
        self.assertTrue(any("would do for the seal" in r for r in self.verdict_of(got, "vapour-margin")["remarks"]))
        enough = self.sheet(job, "--suction", f"{least / 1e5} bar(g)")
        self.assertEqual(self.verdict_of(enough, "vapour-margin")["verdict"], "pass")
        self.assertTrue(enough["conditions_tried"])

    def test_altitude_takes_margin_away(self):
        low, high = self.sheet(greenhouse()), self.sheet(greenhouse(), "--altitude", "3000 m")
        self.assertLess(high["margin_ratio"], low["margin_ratio"])
        # Standard atmosphere (ISO 2533): 701 hPa at 3000 m
        self.assertAlmostEqual(high["atmosphere_Pa"], 70109, delta=60)

    def test_another_length_changes_the_spring_by_its_rate(self):
        a, b = self.sheet(greenhouse(), "--length", "1.00 in"), self.sheet(greenhouse(), "--length", "0.98 in")
        self.assertAlmostEqual(b["spring_force_N"] - a["spring_force_N"], 0.02 * 60 * LBF, delta=1e-6)
        self.assertGreater(b["heat_W"], a["heat_W"])

    def test_more_speed_makes_more_heat(self):
        self.assertGreater(self.sheet(greenhouse(), "--speed", "3600 rpm")["heat_W"], self.sheet(greenhouse())["heat_W"])

    def test_epdm_with_petroleum_grease_is_not_fit(self):
        job = greenhouse()
        job["make_up"]["seal"]["lubricant"] = "petroleum-grease"
        got = self.verdict_of(self.sheet(job, status=1), "lubricant-elastomer")
        self.assertEqual((got["verdict"], got["reason"]), ("fail", "does-not-suit"))
        self.assertIn("Use instead: clean water; water with a little soap; the service's own glycol and water; silicone oil or grease, for O-rings only.", got["remarks"])

    def test_a_stack_of_one_and_a_half_millimetres_too_little_names_the_shim(self):
        job = greenhouse()
        reading(job, "sleeve-length")["value"] = "1.440"
        got = self.verdict_of(self.sheet(job, status=1), "working-length")
        self.assertEqual(got["verdict"], "fail")
        self.assertTrue(any("shim on the shaft's shoulder of 0.0" in r for r in got["remarks"]), got["remarks"])

    def test_without_a_sheet_it_says_what_is_missing(self):
        job = greenhouse()
        del job["make_up"]["seal"]["sheet"]
        got = self.sheet(job, status=0)
        self.assertIsNone(got["film_m"])
        self.assertTrue(any("sheet" in m for m in got["missing"]))
        self.assertAlmostEqual(got["vapour_pressure_Pa"], self.water_at("82 degC"), delta=1e-6 * got["vapour_pressure_Pa"])

    def test_a_liquid_nobody_knows_is_unproven(self):
        job = greenhouse()
        job["make_up"]["service"]["fluid"] = "nutrient solution"
        got = self.sheet(job, status=1)
        self.assertEqual(got["verdict"], "unproven")
        self.assertIsNone(got["vapour_pressure_Pa"])

    def test_conditions_that_can_not_be_are_refused_by_flag(self):
        for flag, value in (("--altitude", "20000 m"), ("--temperature", "3 psi"), ("--length", "-1 in"), ("--speed", "0 rpm"),
                            ("--suction", "12 psi")):
            with self.subTest(flag):
                self.assertIn(flag, self.complaint_of("seal", str(GREENHOUSE), flag, value))

    def test_the_sheet_for_people_says_the_word_and_the_deciding_numbers(self):
        text = self.text_of("seal", str(GREENHOUSE))
        self.assertTrue(text.startswith("FIT"), text[:40])
        for words in ("What decides", "at least 1.3", "Along the face", "least suction pressure"):
            self.assertIn(words, text)
        spanish = self.text_of("seal", str(GREENHOUSE), "--language", "es")
        self.assertTrue(spanish.startswith("APTO"), spanish[:40])


if __name__ == "__main__":
    unittest.main()
