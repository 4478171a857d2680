"""`pumpwright stack` on literal chains with answers worked out by hand."""

import json
import math
import unittest

from harness import ProgramTest


def chain(links, **more):
    return json.dumps({"format": "pumpwright-chain", "version": 1, "name": "test", "links": links, **more}).encode()


# 30 - 20 = 10 mm; tolerances 0.3 and 0.4 mm: worst case ± 0.7, root sum of squares ± 0.5
TWO = [
    {"name": "long", "coefficient": 1, "nominal": "30 mm", "tolerance": "0.3 mm"},
    {"name": "short", "coefficient": -1, "nominal": "20 mm", "tolerance": "0.4 mm"},
]


class Stack(ProgramTest):
    def test_worst_case_root_sum_of_squares_and_shares(self):
        got = self.json_of("stack", "-", "--samples", "20000", stdin=chain(TWO))
        self.assertAlmostEqual(got["nominal_m"], 10e-3, delta=1e-15)
        self.assertAlmostEqual(got["worst_min_m"], 9.3e-3, delta=1e-15)
        self.assertAlmostEqual(got["worst_max_m"], 10.7e-3, delta=1e-15)
        self.assertAlmostEqual(got["rss_m"], 0.5e-3, delta=1e-15)
        self.assertEqual([s["name"] for s in got["share"]], ["long", "short"])
        self.assertAlmostEqual(got["share"][0]["fraction"], 0.36, delta=1e-12)
        self.assertAlmostEqual(got["share"][1]["fraction"], 0.64, delta=1e-12)

    def test_sampled_figures_agree_with_the_normal_sum(self):
        # Standard deviation 0.5 mm / 3. With 1e6 samples the mean is known to 1.7e-7 m, the standard deviation to 1.2e-7 m,
        # the 0.135 % quantiles to about 1.4e-6 m; ten of those are allowed.
        sd = 0.5e-3 / 3
        got = self.json_of("stack", "-", "--samples", "1000000", "--seed", "3", stdin=chain(TWO))
        self.assertAlmostEqual(got["mean_m"], 10e-3, delta=10 * sd / 1000)
        self.assertAlmostEqual(got["sd_m"], sd, delta=10 * sd / 1414)
        self.assertAlmostEqual(got["q00135_m"], 10e-3 - 3 * sd, delta=1.4e-5)
        self.assertAlmostEqual(got["q99865_m"], 10e-3 + 3 * sd, delta=1.4e-5)
        self.assertIsNone(got["probability_inside"])
        self.assertIsNone(got["verdict"])

    def test_probability_inside_the_limits(self):
        # ± 2 standard deviations
        sd = 0.5 / 3
        limits = {"lower": f"{10 - 2 * sd!r} mm", "upper": f"{10 + 2 * sd!r} mm", "inside": 0.95}
        got = self.json_of("stack", "-", "--samples", "100000", stdin=chain(TWO, limits=limits))
        exact = math.erf(2 / math.sqrt(2))
        self.assertAlmostEqual(got["exact_probability_inside"], exact, delta=1e-9)
        self.assertAlmostEqual(got["probability_inside"], exact, delta=8 * math.sqrt(exact * (1 - exact) / 1e5))
        self.assertEqual(got["verdict"], "pass")

    def test_too_few_inside_fails(self):
        text = self.text_of("stack", "-", "--samples", "1000", status=1, stdin=chain(TWO, limits={"lower": "10 mm"}))
        self.assertIn("FAIL", text)
        self.assertIn("too few builds", text)

    def test_the_same_seed_gives_the_same_bytes_on_any_number_of_threads(self):
        data = chain([{**TWO[0], "distribution": "triangular"}, {**TWO[1], "distribution": "student_t", "dof": 5}])
        runs = {self.text_of("stack", "-", "--json", "--samples", "300000", "--seed", "11", "--threads", t, stdin=data)
                for t in ("1", "2", "3", "16")}
        self.assertEqual(len(runs), 1)
        other = self.text_of("stack", "-", "--json", "--samples", "300000", "--seed", "12", stdin=data)
        self.assertNotIn(other, runs)

    def test_the_published_examples_are_judged(self):
        for name in ("seal-working-length", "impeller-clearance"):
            got = self.json_of("stack", f"docs/examples/{name}.json", "--samples", "50000")
            self.assertEqual(got["verdict"], "pass", name)

    def test_arguments_out_of_range_are_refused(self):
        for arguments in (("--samples", "999"), ("--samples", "1e6"), ("--seed", "-1"), ("--threads", "0"),
                          ("--samples", "200000001"), ("--seed", "18446744073709551616")):
            line = self.complaint_of("stack", "-", *arguments, stdin=chain(TWO))
            self.assertIn(arguments[0] + ": read \"" + arguments[1], line)


if __name__ == "__main__":
    unittest.main()
