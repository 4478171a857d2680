"""`pumpwright rotor` on literal rotors with answers worked out by hand, and its schema against its decoder."""

import copy
import json
import math
import unittest

import jsonschema

from harness import ROOT, ProgramTest, run

SCHEMA = json.loads((ROOT / "docs/rotor.schema.json").read_text())
EXAMPLES = sorted((ROOT / "docs/examples").glob("rotor-*.json"))

# 40 mm shaft of 400 mm, impeller at its end 100 mm over the first bearing, 250 mm between them.
ROTOR = {
    "format": "pumpwright-rotor",
    "version": 1,
    "name": "test",
    "speed": "3000 rpm",
    "material": {"modulus": "200 GPa", "density": "7850 kg/m³", "poisson": 0.3, "source": "given"},
    "shaft": [{"length": "400 mm", "diameter": "40 mm"}],
    "bearings": [
        {"name": "first", "at": "100 mm", "kind": "deep-groove-ball", "dynamic_rating": "30 kN"},
        {"name": "second", "at": "350 mm", "kind": "cylindrical-roller", "dynamic_rating": "40 kN", "locates": False},
    ],
    "impeller": {"at": "0 mm", "mass": "5 kg", "outlet_diameter": "200 mm", "outlet_width": "20 mm"},
    "seal_face": "50 mm",
    "operating_point": {"flow_ratio": 0.5, "head": "40 m", "density": "1000 kg/m³",
                        "radial_factor": {"least": 0.2, "most": 0.2, "source": "given"}},
    "unbalance": {"mass": "0 g", "radius": "0 mm"},
    "axial_load": "0 N",
}
THRUST = 0.2 * 1000 * 9.80665 * 40 * 0.2 * 0.02


def changed(path, value):
    """ROTOR with another value at "bearings/0/at"; None takes the key away."""
    rotor = copy.deepcopy(ROTOR)
    *way, last = [int(p) if p.isdigit() else p for p in path.split("/")]
    there = rotor
    for part in way:
        there = there[part]
    if value is None:
        del there[last]
    else:
        there[last] = value
    return rotor


def data(rotor):
    return json.dumps(rotor).encode()


class Rotor(ProgramTest):
    def found(self, rotor, status=1):
        return self.json_of("rotor", "-", stdin=data(rotor), status=status)

    def verdict(self, got, what):
        return next(v for v in got["verdicts"] if v["what"] == what)

    def test_thrust_reactions_and_deflection_are_those_of_the_formulas(self):
        got = self.found(ROTOR)
        self.assertAlmostEqual(got["radial_thrust_N"]["expected"], THRUST, delta=1e-9)
        self.assertEqual(got["unbalance_force_N"], 0)
        inertia, area = math.pi / 64 * 0.04**4, math.pi / 4 * 0.04**2
        shear = 6 * 1.3 / (7 + 1.8) * 200e9 / 2.6 * area
        a, span = 0.1, 0.25
        tip = THRUST * a * a * (a + span) / (3 * 200e9 * inertia) + THRUST * a / shear * (1 + a / span)
        first = got["line"][0]
        self.assertEqual(first["at_m"], 0)
        self.assertAlmostEqual(first["thrust_m"] / tip, 1, delta=1e-9)
        weight = 9.80665 * (5 + 7850 * area * 0.4)
        shaft = 9.80665 * 7850 * area * 0.4
        # moments about the second bearing
        at_first = (9.80665 * 5 * 0.35 + shaft * 0.15) / span
        at_second = weight - at_first
        loads = got["bearings"]
        self.assertAlmostEqual(loads[0]["radial_N"]["most"], THRUST * 0.35 / span + at_first, delta=1e-6)
        self.assertAlmostEqual(loads[1]["radial_N"]["most"], THRUST * 0.1 / span + abs(at_second), delta=1e-6)
        self.assertAlmostEqual(loads[0]["radial_N"]["least"], THRUST * 0.35 / span - at_first, delta=1e-6)

    def test_lives_follow_from_load_and_speed(self):
        got = self.found(ROTOR)
        for bearing, rating, exponent in zip(got["bearings"], (30e3, 40e3), (3, 10 / 3)):
            life = 1e6 / (60 * 3000) * (rating / bearing["equivalent_N"]["most"]) ** exponent
            self.assertAlmostEqual(bearing["L10_h"]["least"] / life, 1, delta=1e-9)
        lives = [b["L10_h"]["least"] for b in got["bearings"]]
        both = sum(life**-1.5 for life in lives) ** (-1 / 1.5)
        self.assertAlmostEqual(got["system_L10_h"]["least"] / both, 1, delta=1e-9)

    def test_deflection_passes_fails_or_stays_unproven(self):
        deflection = self.found(ROTOR)["seal_deflection_m"]
        for limit, verdict in ((deflection["most"] * 1.001, "pass"), (deflection["least"] * 0.999, "fail"),
                               ((deflection["least"] + deflection["most"]) / 2, "unproven")):
            rotor = {**ROTOR, "limits": {"deflection": f"{limit!r} m", "source": "given"}}
            self.assertEqual(self.verdict(self.found(rotor), "deflection")["verdict"], verdict)

    def test_a_straddling_thrust_factor_says_what_would_settle_it(self):
        rotor = changed("operating_point/radial_factor", {"least": 0.01, "most": 1.9, "source": "given"})
        text = self.text_of("rotor", "-", stdin=data(rotor), status=1)
        self.assertIn("UNPROVEN", text)
        self.assertIn("radial_factor", text)
        self.assertIn("ISO 9908", text)

    def test_unknown_bearing_stiffness_leaves_the_separation_unproven(self):
        got = self.found(ROTOR)
        self.assertEqual(self.verdict(got, "separation"),
                         {"what": "separation", "verdict": "unproven", "reason": "stiffness-not-given"})
        needed = got["stiffness_needed_N_m"]
        self.assertGreater(needed, 0)
        for factor, verdict in ((1.05, "pass"), (0.9, "fail")):
            rotor = copy.deepcopy(ROTOR)
            for bearing in rotor["bearings"]:
                bearing["stiffness"] = f"{needed * factor!r} N/m"
            got = self.found(rotor)  # on bearings as soft as that the deflection fails
            self.assertEqual(self.verdict(got, "separation")["verdict"], verdict)
            self.assertIsNone(got["stiffness_needed_N_m"])

    def test_spin_parts_forward_from_backward(self):
        got = self.found(ROTOR)
        forward = [m["frequency_rad_s"] for m in got["modes"] if m["forward"]]
        backward = [m["frequency_rad_s"] for m in got["modes"] if not m["forward"]]
        self.assertGreater(forward[0], backward[0])
        self.assertGreater(got["critical_forward_rad_s"][0], got["critical_backward_rad_s"][0])

    def test_a_grade_is_an_unbalance_of_the_impeller(self):
        got = self.found({**ROTOR, "unbalance": {"grade": "6.3 mm/s"}})
        self.assertAlmostEqual(got["unbalance_force_N"], 5 * 6.3e-3 * 100 * math.pi, delta=1e-9)

    def test_a_wanted_life_is_judged_and_needs_the_thrust_along_the_shaft(self):
        wanted = {**ROTOR, "limits": {"life": "100 h", "source": "given"}}
        self.assertEqual(self.verdict(self.found(wanted), "life")["verdict"], "pass")
        del wanted["axial_load"]
        self.assertEqual(self.verdict(self.found(wanted), "life")["reason"], "axial-load-not-given")
        self.assertIn("axial_load", self.text_of("rotor", "-", stdin=data(wanted), status=1))

    def test_inches_answer_in_thou(self):
        text = self.text_of("rotor", "-", stdin=data({**ROTOR, "seal_face": "2 in"}), status=1)
        self.assertIn("thou", text)
        self.assertNotIn("µm …", text)

    def test_every_answer_says_the_caution(self):
        self.assertIn("locked out", self.text_of("rotor", "-", stdin=data(ROTOR), status=1))

    def test_what_can_not_be_is_refused_with_its_place(self):
        for path, value, field in (
            ("speed", "3000", "speed"),
            ("speed", "0 rpm", "speed"),
            ("shaft", [], "shaft"),
            ("shaft/0/diameter", "40 kg", "diameter"),
            ("shaft/0/bore", "39.5 mm", "shaft/0/bore"),
            ("material", "oak", "material"),
            ("bearings/1/at", "90 mm", "bearings/1/at"),
            ("bearings/1/at", "500 mm", "bearings/1/at"),
            ("bearings/0/kind", "plain", "kind"),
            ("bearings", ROTOR["bearings"][:1], "bearings"),
            ("impeller/mass", "-1 kg", "impeller/mass"),
            ("impeller/polar_inertia", "0.01 kg·m²", "diametral_inertia"),
            ("seal_face", "401 mm", "seal_face"),
            ("operating_point/flow_ratio", "0.5", "flow_ratio"),
            ("operating_point/radial_factor/most", 0.1, "operating_point/radial_factor/most"),
            ("operating_point/density", "1 kg/m³", "operating_point/density"),
            ("unbalance", {}, "unbalance"),
            ("unbalance", {"grade": "6.3 mm/s", "mass": "1 g", "radius": "50 mm"}, "unbalance"),
            ("axial_load", "5 N·m", "axial_load"),
            ("axial_load", "9 kN", "bearings/0/static_rating"),
            ("limits", {"deflection": "50 µm"}, "source"),
            ("more", 1, "more"),
        ):
            with self.subTest(path=path, value=value):
                self.assertIn(field, self.complaint_of("rotor", "-", stdin=data(changed(path, value))))
        over = changed("operating_point/radial_factor", None)
        over["operating_point"]["flow_ratio"] = 1.3
        line = self.complaint_of("rotor", "-", stdin=data(over))
        self.assertIn("1.3", line)
        self.assertIn("0 to 1.2", line)

    def test_two_bearings_that_both_locate_are_refused(self):
        both = copy.deepcopy(ROTOR)
        for bearing in both["bearings"]:
            bearing["locates"] = True
        self.assertIn("locates", self.complaint_of("rotor", "-", stdin=data(both)))


class RotorSchema(ProgramTest):
    def test_the_schema_is_a_schema(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    def test_both_accept_every_example(self):
        self.assertGreaterEqual(len(EXAMPLES), 2)
        for path in EXAMPLES:
            with self.subTest(path.name):
                jsonschema.validate(json.loads(path.read_text()), SCHEMA, jsonschema.Draft202012Validator)
                done = run("rotor", str(path), "--json")
                self.assertIn(done.returncode, (0, 1), done.stderr)
                self.assertGreater(len(json.loads(done.stdout)["line"]), 20)

    def test_both_accept_the_rotor_of_these_tests_and_its_variations(self):
        for rotor in (ROTOR, changed("material", "carbon-steel"), changed("axial_load", None),
                      {**ROTOR, "others": [{"name": "hub", "at": "380 mm", "mass": "1 kg"}]},
                      {**ROTOR, "limits": {"separation": "25 %", "source": "given"}}):
            jsonschema.validate(rotor, SCHEMA, jsonschema.Draft202012Validator)
            self.assertIn(run("rotor", "-", stdin=data(rotor)).returncode, (0, 1))

    def test_both_refuse_what_a_schema_can_judge(self):
        validator = jsonschema.Draft202012Validator(SCHEMA)
        for path, value in (
            ("format", "pumpwright-chain"), ("version", 2), ("version", "1"), ("name", None), ("speed", 3000),
            ("speed", None), ("material", "oak"), ("material/source", None), ("material/poisson", 0.6),
            ("shaft", []), ("shaft/0/length", None), ("shaft/0/colour", "red"), ("bearings", ROTOR["bearings"][:1]),
            ("bearings", ROTOR["bearings"] * 2), ("bearings/0/kind", "plain"), ("bearings/0/locates", "yes"),
            ("bearings/0/f0", 3), ("impeller/outlet_width", None), ("impeller/polar_inertia", "0.01 kg·m²"),
            ("operating_point/flow_ratio", "half"), ("operating_point/radial_factor/source", None),
            ("operating_point/radial_factor/most", 3), ("unbalance", {}), ("unbalance/grade", "6.3 mm/s"),
            ("unbalance/radius", None), ("limits", {"life": "100 h"}), ("others", [{"at": "1 mm", "mass": "1 kg"}]),
            ("axial_load", 5), ("more", 1),
        ):
            with self.subTest(path=path, value=value):
                rotor = changed(path, value)
                self.assertFalse(validator.is_valid(rotor))
                self.complaint_of("rotor", "-", stdin=data(rotor))


if __name__ == "__main__":
    unittest.main()
