"""`pumpwright fit` on literal sizes."""

import math
import unittest

from harness import ProgramTest

INCH = 0.0254


class Fit(ProgramTest):
    def test_a_designation_gives_the_limits_of_the_standard(self):
        # ISO 286-2: 50 H7 is 0/+25 µm, 50 g6 is -9/-25 µm
        got = self.json_of("fit", "--shaft", "50 g6", "--bore", "50 H7")
        self.assertEqual(got["kind"], "clearance")
        self.assertAlmostEqual(got["smallest_clearance_m"], 9e-6, delta=1e-12)
        self.assertAlmostEqual(got["largest_clearance_m"], 50e-6, delta=1e-12)
        self.assertIsNone(got["verdict"])

    def test_limits_in_inches(self):
        got = self.json_of("fit", "--shaft", "1.2495 in +0/-0.0005 in", "--bore", "1.2500 in +0.0010/-0 in")
        self.assertAlmostEqual(got["smallest_clearance_m"], 0.0005 * INCH, delta=1e-12)
        self.assertAlmostEqual(got["largest_clearance_m"], 0.0020 * INCH, delta=1e-12)

    def test_measured_sizes_with_uncertainty(self):
        got = self.json_of("fit", "--shaft", "49.990 mm", "--shaft-u", "3 µm", "--bore", "50.000 mm", "--bore-u", "4 µm")
        self.assertAlmostEqual(got["measured"]["clearance_m"], 10e-6, delta=1e-12)
        self.assertAlmostEqual(got["measured"]["standard_uncertainty_m"], 5e-6, delta=1e-12)
        # two standard uncertainties above zero
        self.assertAlmostEqual(got["measured"]["probability_of_clearance"], 0.5 * (1 + math.erf(2 / math.sqrt(2))), delta=1e-9)

    def test_a_size_without_uncertainty_is_said_to_be_taken_as_exact(self):
        text = self.text_of("fit", "--shaft", "49.990 mm", "--bore", "50 H7")
        self.assertIn("taken as exact", text)

    def test_the_wanted_kind_is_judged(self):
        fit = ("fit", "--bore", "50 H7", "--want", "clearance", "--shaft")
        self.assertEqual(self.json_of(*fit, "50 g6")["verdict"], "pass")
        self.assertEqual(self.json_of(*fit, "50 k6", status=1)["verdict"], "unproven")
        self.assertEqual(self.json_of(*fit, "50 s6", status=1)["verdict"], "fail")

    def test_an_interference_gives_pressure_force_and_temperature(self):
        # Steel in steel, solid shaft, d = 50, D = 100 mm, E = 200 GPa: p = E (delta/d) (D² - d²) / (2 D²), whatever Poisson's
        # ratio. At delta = 50 µm: 75 MPa. Force = mu p pi d L. Temperature rise = delta / (alpha d).
        got = self.json_of("fit", "--shaft", "50.050 mm", "--bore", "50.000 mm", "--hub-outside", "100.1 mm", "--length", "40 mm",
                           "--hub-material", "steel-1045", "--shaft-material", "steel-1045", "--friction", "0.15")
        press = got["press"][-1]
        d, delta = 50.05e-3, 50e-6
        outside = 100.1e-3
        pressure = 200e9 * delta / d * (outside**2 - d**2) / (2 * outside**2)
        self.assertAlmostEqual(press["pressure_pa"] / pressure, 1, delta=1e-9)
        self.assertAlmostEqual(press["axial_force_n"] / (0.15 * pressure * math.pi * d * 40e-3), 1, delta=1e-9)
        self.assertAlmostEqual(press["hub_temperature_k"], 293.15 + delta / (11.6e-6 * d), delta=1e-6)
        self.assertEqual(got["kind"], "interference")

    def test_a_clearance_has_no_press(self):
        got = self.json_of("fit", "--shaft", "50 g6", "--bore", "50 H7", "--hub-outside", "80 mm", "--length", "40 mm",
                           "--hub-material", "steel-1045", "--shaft-material", "steel-1045")
        self.assertEqual(got["press"], [])

    def test_what_can_not_be_a_size_is_refused(self):
        for shaft, says in (("-50 mm", '"-50 mm"'), ("50", '"50"'), ("50 H7", '"50 H7"'), ("20 degC", '"20 degC"'),
                            ("50 z6", '"'), ("1,250 mm", '"1,250 mm"')):
            line = self.complaint_of("fit", "--shaft", shaft, "--bore", "50 H7")
            self.assertIn(says, line)
            self.assertTrue(line.startswith("pumpwright: --shaft") or "tolerance class" in line, line)

    def test_an_incomplete_press_is_refused(self):
        line = self.complaint_of("fit", "--shaft", "50 s6", "--bore", "50 H7", "--hub-outside", "80 mm")
        self.assertIn("--length", line)


if __name__ == "__main__":
    unittest.main()
