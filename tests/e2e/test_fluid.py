"""`pumpwright fluid`: values that tables print, the published schema, and what is refused."""

import json
import unittest

import jsonschema

from harness import ROOT, ProgramTest

SCHEMA = json.loads((ROOT / "docs/fluid.schema.json").read_text())
GLYCOL = ("fluid", "ethylene-glycol", "--fraction", "40 %")


class Fluid(ProgramTest):
    def fluid(self, *arguments):
        got = self.json_of("fluid", *arguments)
        jsonschema.validate(got, SCHEMA, jsonschema.Draft202012Validator)
        return got

    def test_the_schema_is_a_schema(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    def test_water_at_eighty_degrees(self):
        # IAPWS-IF97 and the IAPWS formulation 2008 for viscosity, as computed elsewhere.
        got = self.fluid("water", "--at", "80 °C")
        self.assertAlmostEqual(got["saturation_pressure_Pa"], 47414.7, delta=0.06)
        self.assertAlmostEqual(got["density_kg_m3"], 971.803, delta=6e-4)
        self.assertAlmostEqual(got["heat_capacity_J_kgK"], 4195.5, delta=0.06)
        self.assertAlmostEqual(got["viscosity_Pa_s"], 0.35406e-3, delta=6e-9)
        self.assertEqual(got["pressure_Pa"], 101325)
        self.assertAlmostEqual(got["saturation_temperature_K"], 373.1243, delta=1e-4)
        self.assertEqual((got["lowest_temperature_K"], got["highest_temperature_K"]), (273.15, 623.15))
        self.assertIn("IAPWS R12-08", got["sources"]["viscosity"])

    def test_above_boiling_the_default_pressure_is_saturation(self):
        got = self.fluid("water", "--at", "140 °C")
        self.assertAlmostEqual(got["saturation_pressure_Pa"], 361501, delta=1)
        self.assertEqual(got["pressure_Pa"], got["saturation_pressure_Pa"])
        self.assertAlmostEqual(got["saturation_temperature_K"], 413.15, delta=1e-6)
        self.assertIn("(saturation)", self.text_of("fluid", "water", "--at", "140 °C"))

    def test_a_gauge_pressure_stands_on_the_standard_atmosphere(self):
        gauge = self.fluid("water", "--at", "180 °F", "--pressure", "12 psig")
        self.assertAlmostEqual(gauge["pressure_Pa"], 101325 + 12 * 6894.757293168, delta=1e-6)
        self.assertEqual(self.fluid("water", "--at", "180 °F", "--pressure", "2 bar(a)")["pressure_Pa"], 200000)

    def test_fahrenheit_asks_for_inch_and_pound(self):
        text = self.text_of("fluid", "water", "--at", "180 °F")
        self.assertIn("water at 180.0 °F, 14.70 psia (the standard atmosphere)", text)
        self.assertRegex(text, r"density +60\.58 lb/ft³")
        self.assertRegex(text, r"boils at this pressure at +212\.0 °F")
        self.assertRegex(self.text_of("fluid", "water", "--at", "80 °C"), r"density +971\.8 kg/m³")

    def test_a_mixture_has_its_own_weight_and_pure_water_s_vapour_pressure(self):
        got = self.fluid("ethylene-glycol", "--fraction", "0.4", "--at", "20 °C")
        self.assertAlmostEqual(got["density_kg_m3"], 1051.9, delta=0.06)
        self.assertAlmostEqual(got["viscosity_Pa_s"], 2.8191e-3, delta=6e-8)
        water = self.fluid("water", "--at", "20 °C")
        self.assertEqual(got["saturation_pressure_Pa"], water["saturation_pressure_Pa"])
        self.assertIn("pure water", got["sources"]["saturation"])
        self.assertAlmostEqual(self.fluid("ethylene-glycol", "--fraction", "40 %", "--at", "90 °C", "--pressure", "3.61501 bar(a)")
                               ["saturation_temperature_K"], 413.15, delta=1e-4)

    def test_a_boiling_point_that_is_not_known_is_null(self):
        self.assertIsNone(self.fluid("sea-water", "--at", "90 °C", "--pressure", "20 bar(g)")["saturation_temperature_K"])

    def test_salinity_is_a_part_of_one_however_it_is_written(self):
        got = [self.fluid("sea-water", "--at", "15 °C", *more) for more in
               ((), ("--salinity", "0.035"), ("--salinity", "3.5 %"), ("--salinity", "35 g/kg"))]
        for other in got[1:]:
            self.assertEqual(other, got[0])
        self.assertEqual(got[0]["name"], "sea water of 35 g/kg")

    def test_what_can_not_be_is_refused_with_what_would_be_valid(self):
        for arguments, says in (
            (("fluid", "brine", "--at", "20 °C"), 'NAME: read "brine"; valid: one of water, sea-water, ethylene-glycol, propylene-glycol'),
            (("fluid", "water"), "--at"),
            (("fluid", "water", "--at", "80"), '--at: read "80"; valid: a temperature'),
            (("fluid", "water", "--at", "80 bar"), '--at: read "80 bar"'),
            (("fluid", "water", "--at", "360 °C"), '--at: read "360 °C"; valid: 0 °C to 350 °C (32 °F to 662 °F)'),
            (("fluid", "water", "--at", "-1 °C"), '--at: read "-1 °C"; valid: 0 °C to 350 °C'),
            (("fluid", "water", "--at", "140 °C", "--pressure", "2 bar(a)"), '--pressure: read "2 bar(a)"; valid: 3.615'),
            (("fluid", "water", "--at", "20 °C", "--pressure", "2 bar"), '--pressure: read "2 bar"'),
            (("fluid", "water", "--at", "20 °C", "--pressure", "200 MPa(a)"), '--pressure: read "200 MPa(a)"'),
            (("fluid", "ethylene-glycol", "--at", "20 °C"), '--fraction: read "nothing"'),
            (("fluid", "ethylene-glycol", "--fraction", "80 %", "--at", "20 °C"), '--fraction: read "80 %"; valid: kg of glycol'),
            (("fluid", "ethylene-glycol", "--fraction", "half", "--at", "20 °C"), '--fraction: read "half"'),
            ((*GLYCOL, "--at", "101 °C"), '--at: read "101 °C"'),
            ((*GLYCOL, "--at", "-30 °C"), '--at: read "-30 °C"; valid: -23.8'),
            (("fluid", "water", "--fraction", "0.1", "--at", "20 °C"), '--fraction: read "0.1"; valid: nothing'),
            (("fluid", "water", "--salinity", "0.1", "--at", "20 °C"), '--salinity: read "0.1"; valid: nothing'),
            (("fluid", "sea-water", "--salinity", "35", "--at", "20 °C"), '--salinity: read "35"; valid: kg of salt'),
        ):
            with self.subTest(arguments):
                self.assertIn(says, self.complaint_of(*arguments))


if __name__ == "__main__":
    unittest.main()
