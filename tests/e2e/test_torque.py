"""`pumpwright torque` on literal fasteners."""

import math
import unittest

from harness import ProgramTest

POUND = 4.4482216152605
TORQUE = ("torque", "--thread", "1/2-13", "--grade", "SAE 5", "--condition", "dry")


class Torque(ProgramTest):
    def test_the_torque_for_a_share_of_the_proof_load(self):
        # Stress area pi/4 (0.5 - 0.9743/13)² in², proof stress 85 ksi, K 0.18 to 0.27
        area = math.pi / 4 * (0.5 - 0.9743 / 13) ** 2
        preload = 0.75 * 85000 * area * POUND
        got = self.json_of(*TORQUE)
        self.assertAlmostEqual(got["preload_largest_n"] / preload, 1, delta=1e-9)
        self.assertAlmostEqual(got["torque_least_nm"] / (0.18 * 0.0127 * preload), 1, delta=1e-9)
        self.assertAlmostEqual(got["torque_most_nm"] / (0.27 * 0.0127 * preload), 1, delta=1e-9)
        self.assertEqual(got["verdict"], "pass")

    def test_the_preload_of_a_torque_is_a_range(self):
        got = self.json_of(*TORQUE, "--torque", "60 N·m", "--wrench-error", "5 %")
        self.assertAlmostEqual(got["preload_largest_n"], 60 * 1.05 / (0.18 * 0.0127), delta=1e-6)
        self.assertAlmostEqual(got["preload_smallest_n"], 60 * 0.95 / (0.27 * 0.0127), delta=1e-6)

    def test_too_much_torque_fails_and_friction_may_decide(self):
        self.assertEqual(self.json_of(*TORQUE, "--torque", "250 ft-lb", status=1)["verdict"], "fail")
        self.assertEqual(self.json_of(*TORQUE, "--torque", "110 ft-lb", status=1)["reason"], "friction-decides")

    def test_a_strength_that_is_only_remembered_decides_nothing(self):
        got = self.json_of("torque", "--thread", "M12", "--grade", "ISO 8.8", "--condition", "oiled", status=1)
        self.assertEqual((got["verdict"], got["reason"]), ("unproven", "strength-unconfirmed"))

    def test_thread_locking_needs_a_nut_factor_from_its_sheet(self):
        locking = ("torque", "--thread", "1/2-13", "--grade", "SAE 5", "--condition", "thread-locking")
        self.assertIn("--nut-factor", self.complaint_of(*locking))
        got = self.json_of(*locking, "--nut-factor", "0.14:0.2")
        self.assertEqual((got["nut_factor_lowest"], got["nut_factor_highest"]), (0.14, 0.2))

    def test_what_does_not_fit_together_is_refused(self):
        for more in (("--torque", "60 N·m", "--preload", "30 kN"), ("--torque", "60"), ("--torque", "60 J"), ("--preload", "0 N"),
                     ("--proof-share", "9"), ("--wrench-error", "4 %"), ("--torque", "-5 N·m")):
            self.complaint_of(*TORQUE, *more)
        self.assertIn("SAE 5", self.complaint_of("torque", "--thread", "1/2-13", "--grade", "SAE 6", "--condition", "dry"))
        self.assertIn("1/2-13", self.complaint_of("torque", "--thread", "1/2-12", "--grade", "SAE 5", "--condition", "dry"))


if __name__ == "__main__":
    unittest.main()
