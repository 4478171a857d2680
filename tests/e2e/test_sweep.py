"""`pumpwright sweep` on literal readings with answers worked out by hand."""

import math
import unittest

from harness import ProgramTest

THOU = 25.4e-6


def csv(rows, header="angle_deg,reading"):
    return (header + "\n" + "".join(f"{a},{r}\n" for a, r in rows)).encode()


def harmonic(count, mean, terms):
    """Readings of mean + sum of amplitude * cos(order * (angle - crest)), written so that they come back to the last bit."""
    rows = []
    for i in range(count):
        angle = 360 * i / count
        value = mean + sum(a * math.cos(math.radians(k * (angle - crest))) for k, a, crest in terms)
        rows.append((repr(angle), repr(value)))
    return rows


FOUR = csv([(0, 3), (90, 1), (180, -1), (270, 1)])
SWEEP = ("sweep", "-", "--unit", "thou", "--limit", "7")


class Sweep(ProgramTest):
    def test_known_harmonics_come_back(self):
        rows = csv(harmonic(12, 0.001, [(1, 0.03, 40), (2, 0.004, 15), (3, 0.001, 100)]))
        got = self.json_of("sweep", "-", "--unit", "mm", "--limit", "0.2", "--graduation", "0.001", stdin=rows)
        self.assertEqual(got["count"], 12)
        self.assertAlmostEqual(got["eccentricity_m"], 0.03e-3, delta=1e-12)
        self.assertAlmostEqual(got["high_spot_deg"], 40, delta=1e-6)
        self.assertAlmostEqual(got["mean_m"], 0.001e-3, delta=1e-12)
        by_order = {h["order"]: h for h in got["harmonics"]}
        self.assertAlmostEqual(by_order[2]["amplitude_m"], 0.004e-3, delta=1e-12)
        self.assertAlmostEqual(by_order[2]["phase_deg"], 15, delta=1e-4)
        self.assertAlmostEqual(by_order[3]["amplitude_m"], 0.001e-3, delta=1e-12)

    def test_tir_is_largest_minus_smallest_and_twice_the_eccentricity(self):
        got = self.json_of(*SWEEP, "--graduation", "0.1", stdin=FOUR)
        self.assertAlmostEqual(got["tir_m"], 4 * THOU, delta=1e-15)
        self.assertAlmostEqual(got["eccentricity_m"], 2 * THOU, delta=1e-15)
        self.assertEqual((got["highest"]["line"], got["highest"]["angle_deg"], got["highest"]["reading"]), (2, 0.0, "3"))
        self.assertAlmostEqual(got["highest"]["reading_m"], 3 * THOU, delta=1e-18)
        self.assertEqual(got["lowest"]["angle_deg"], 180.0)
        self.assertEqual(got["verdict"], "pass")
        self.assertGreater(got["conformance_probability"], 0.999)

    def test_every_promised_key_is_there(self):
        got = self.json_of(*SWEEP, "--graduation", "0.1", stdin=FOUR)
        for key in ("count", "tir_m", "eccentricity_m", "eccentricity_u_m", "high_spot_deg", "harmonics", "ront_m", "ronq_m",
                    "closure_m", "missed_tir_m", "verdict", "conformance_probability", "suspects", "reason", "limit",
                    "uncertainty"):
            self.assertIn(key, got)
        self.assertEqual(set(got["harmonics"][0]), {"order", "amplitude_m", "phase_deg"})
        self.assertIsNone(got["closure_m"])

    def test_a_limit_on_eccentricity_is_not_one_on_tir(self):
        fine = ("--graduation", "0.1")
        self.json_of("sweep", "-", "--unit", "thou", "--limit", "3", *fine, status=1, stdin=FOUR)
        got = self.json_of("sweep", "-", "--unit", "thou", "--limit", "3", "--limit-on", "eccentricity", *fine, stdin=FOUR)
        self.assertEqual(got["verdict"], "pass")
        self.assertEqual(got["limit"]["on"], "eccentricity")

    def test_a_value_within_the_uncertainty_of_the_limit_is_unproven_and_says_what_settles_it(self):
        got = self.json_of("sweep", "-", "--unit", "thou", "--limit", "4.2", "--graduation", "1", status=1, stdin=FOUR)
        self.assertEqual((got["verdict"], got["reason"]), ("unproven", "limit-in-uncertainty"))
        self.assertLess(got["settling"]["graduation_m"], THOU)

    def test_the_simple_rule_takes_the_value_as_read_when_the_ratio_is_met(self):
        simple = ("--rule", "simple")
        got = self.json_of("sweep", "-", "--unit", "thou", "--limit", "4.2", "--graduation", "1", *simple, stdin=FOUR)
        self.assertEqual((got["verdict"], got["reason"]), ("pass", "inside-limit"))
        got = self.json_of("sweep", "-", "--unit", "thou", "--limit", "4.2", "--graduation", "1", *simple, "--ratio", "5",
                           status=1, stdin=FOUR)
        self.assertEqual(got["reason"], "instrument-too-coarse")

    def test_three_readings_without_a_graduation_prove_nothing(self):
        got = self.json_of(*SWEEP, status=1, stdin=csv([(0, 1), (120, 0), (240, 0)]))
        self.assertEqual((got["verdict"], got["reason"]), ("unproven", "uncertainty-unknown"))
        self.assertIsNone(got["conformance_probability"])
        self.assertIsNone(got["eccentricity_u_m"])

    def test_no_direction_is_claimed_without_a_mount(self):
        fine = (*SWEEP, "--graduation", "0.1")
        got = self.json_of(*fine, stdin=FOUR)
        self.assertAlmostEqual(got["high_spot_deg"] % 360, 0, delta=1e-6)
        self.assertIsNone(got["high_spot_is_on"])
        self.assertIsNone(got["mount"])
        self.assertIn("not known to be a place on shaft or housing", self.text_of(*fine, stdin=FOUR))
        got = self.json_of(*fine, "--mount", "shaft", stdin=FOUR)
        self.assertEqual(got["high_spot_is_on"], "shaft")

    def test_the_high_spot_is_null_when_zero_lies_inside_the_uncertainty(self):
        got = self.json_of("sweep", "-", "--unit", "thou", "--limit", "7", "--graduation", "2",
                           stdin=csv([(0, "0.2"), (90, 0), (180, "-0.2"), (270, 0)]))
        self.assertIsNone(got["high_spot_deg"])

    def test_inside_surface_and_plunger_sign_turn_the_high_spot_round(self):
        fine = (*SWEEP, "--graduation", "0.1", "--mount", "housing")
        for more in (("--surface", "inside"), ("--plunger-in", "minus")):
            got = self.json_of(*fine, *more, stdin=FOUR)
            self.assertAlmostEqual(got["high_spot_deg"], 180, delta=1e-6)

    def test_a_gap_leaves_readings_out_and_nothing_else_does(self):
        rows = [(0, 1), (45, 1), (90, -60), (135, 0), (180, -1), (225, 0), (270, 0), (315, 1)]
        got = self.json_of(*SWEEP, "--graduation", "0.5", "--gap", "80:100", stdin=csv(rows))
        self.assertEqual((got["count"], got["left_out"], got["verdict"]), (7, 1, "pass"))
        self.assertAlmostEqual(got["tir_m"], 2 * THOU, delta=1e-15)
        got = self.json_of(*SWEEP, "--graduation", "0.5", status=1, stdin=csv(rows))
        self.assertEqual((got["count"], got["left_out"]), (8, 0))
        self.assertAlmostEqual(got["tir_m"], 61 * THOU, delta=1e-15)
        self.assertNotEqual(got["verdict"], "pass")

    def test_one_spoiled_reading_among_twelve_is_named_and_still_judged(self):
        rows = [[a, round(2 * math.cos(math.radians(a - 60)), 1)] for a in range(0, 360, 30)]
        rows[7][1] += 9
        got = self.json_of(*SWEEP, "--graduation", "0.1", status=1, stdin=csv(rows))
        self.assertEqual([s["line"] for s in got["suspects"]], [9])
        self.assertEqual(got["suspects"][0]["angle_deg"], 210.0)
        self.assertEqual(got["count"], 12)
        # 30° + 180° off the crest: -1.7 + 9 = 7.3 thou stands as the highest reading, -2 as the lowest
        self.assertAlmostEqual(got["tir_m"], 9.3 * THOU, delta=1e-15)
        self.assertNotEqual(got["verdict"], "pass")

    def test_the_last_reading_may_repeat_the_first_and_shows_the_closure(self):
        rows = [(0, 3), (90, 1), (180, -1), (270, 1), (360, "3.5")]
        got = self.json_of(*SWEEP, "--graduation", "0.5", stdin=csv(rows))
        self.assertAlmostEqual(got["closure_m"], 0.5 * THOU, delta=1e-15)

    def test_readings_may_carry_their_own_unit(self):
        got = self.json_of(*SWEEP, "--graduation", "0.1", stdin=csv([(0, "0.0762 mm"), (90, 1), (180, "-.001 in"), (270, 1)]))
        self.assertAlmostEqual(got["tir_m"], 4 * THOU, delta=1e-15)

    def test_a_face_gives_tilt_only_when_the_shaft_was_held(self):
        face = ("sweep", "-", "--unit", "mm", "--limit", "0.1", "--graduation", "0.001", "--axis", "face", "--radius", "50")
        rows = csv(harmonic(8, 0, [(1, 0.02, 90)]))
        got = self.json_of(*face, stdin=rows)
        self.assertIsNone(got["face"]["squareness_m"])
        self.assertIn("not claimed", self.text_of(*face, stdin=rows))
        got = self.json_of(*face, "--held-toward", "driver", "--over", "150 mm", stdin=rows)
        # 0.02 mm at 50 mm radius: 0.04 mm over 100 mm, 0.06 mm over 150 mm
        self.assertAlmostEqual(got["face"]["squareness_m"], 0.06e-3, delta=1e-12)
        self.assertAlmostEqual(got["face"]["tilt_deg"], math.degrees(math.atan(0.02 / 50)), delta=1e-9)

    def test_a_file_and_standard_input_give_the_same(self):
        import tempfile
        with tempfile.NamedTemporaryFile(suffix=".csv") as file:
            file.write(FOUR)
            file.flush()
            from_file = self.json_of("sweep", file.name, *SWEEP[2:], "--graduation", "0.1")
        from_pipe = self.json_of(*SWEEP, "--graduation", "0.1", stdin=FOUR)
        from_file.pop("file"), from_pipe.pop("file")
        self.assertEqual(from_file, from_pipe)


if __name__ == "__main__":
    unittest.main()
