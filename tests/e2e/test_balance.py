"""`pumpwright balance` on literal rotors, and its file format: published schema and decoder on one corpus."""

import cmath
import copy
import json
import math
import unittest

import jsonschema

from harness import ROOT, ProgramTest, SchemaAndDecoder, document

SCHEMA = json.loads((ROOT / "docs/balance.schema.json").read_text())
EXAMPLES = sorted((ROOT / "docs/examples").glob("balance-*.json"))

# The right-angled triangle of a published example: 7 mil at 160 deg, 100 g at 0 deg, then 5 mil at 70 deg; read again as found.
ONE_PLANE = {
    "format": "pumpwright-balance", "version": 1, "name": "test",
    "angles": {"from": "keyway", "rise": "against rotation", "phase": "lag"},
    "rotor": {"mass": "200 kg", "speed": "1500 rpm", "grade": "G 6.3"},
    "planes": [{"name": "fan", "radius": "200 mm"}],
    "sensors": [{"name": "bearing", "amplitude_u": "0.02 mil", "phase_u": "0.5 deg"}],
    "runs": [
        {"name": "as found", "fitted": [], "readings": [{"sensor": "bearing", "amplitude": "7 mil", "phase": "160 deg"}]},
        {"name": "trial", "fitted": [{"plane": "fan", "mass": "100 g", "angle": "0 deg"}],
         "readings": [{"sensor": "bearing", "amplitude": "5 mil", "phase": "70 deg"}]},
        {"name": "trial off", "fitted": [], "readings": [{"sensor": "bearing", "amplitude": "7 mil", "phase": "160 deg"}]},
    ],
}

KEY = {"shaft_diameter": "28 mm", "system": "metric", "length": "40 mm", "seat_length": "40 mm", "hub_length": "30 mm",
       "density": "7850 kg/m3"}


def changed(change, base=None):
    data = copy.deepcopy(base or ONE_PLANE)
    change(data)
    return data


def bytes_of(data):
    return json.dumps(data).encode()


def two_planes(cross=0.2):
    """Sensor k answers to plane k with 1 and to the other with `cross` (mm/s per 100 g); unbalances 300 g at 40 deg, 200 g at 250 deg."""
    planted = [cmath.rect(300, math.radians(40)), cmath.rect(200, math.radians(250))]

    def readings(fitted):
        there = [p + f for p, f in zip(planted, fitted)]
        v = [(there[0] + cross * there[1]) / 100, (cross * there[0] + there[1]) / 100]
        return [{"sensor": s, "amplitude": f"{abs(z)!r} mm/s", "phase": f"{math.degrees(cmath.phase(z))!r} deg"}
                for s, z in zip("AB", v)]

    def weight(plane):
        return {"plane": plane, "mass": "100 g", "angle": "0 deg"}

    return {
        **ONE_PLANE,
        "planes": [{"name": "left", "radius": "200 mm", "at": "0.2 m"}, {"name": "right", "radius": "200 mm", "at": "0.6 m"}],
        "sensors": [{"name": "A", "amplitude_u": "0.01 mm/s", "phase_u": "0.3 deg"},
                    {"name": "B", "amplitude_u": "0.01 mm/s", "phase_u": "0.3 deg"}],
        "runs": [{"name": "as found", "fitted": [], "readings": readings([0, 0])},
                 {"name": "left", "fitted": [weight("left")], "readings": readings([100, 0])},
                 {"name": "both", "fitted": [weight("left"), weight("right")], "readings": readings([100, 100])}],
    }


class Balance(ProgramTest):
    def test_the_published_triangle(self):
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(ONE_PLANE))
        correction = got["corrections"][0]
        self.assertAlmostEqual(correction["mass_kg"], 0.7 / math.sqrt(74), delta=1e-9)
        self.assertAlmostEqual(correction["add"]["angle_deg"], 360 - math.degrees(math.atan2(5, 7)), delta=1e-7)
        self.assertEqual(got["verdict"], "fail")
        self.assertAlmostEqual(got["permissible_kg_m"], 200 * 6.3e-3 / (50 * math.pi), delta=1e-15)
        self.assertTrue(got["effects"][0]["enough"])

    def test_degrees_the_other_way_mirror_the_answer(self):
        def mirror(data):
            data["angles"] = {"from": "keyway", "rise": "with rotation", "phase": "lead"}
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(changed(mirror)))
        self.assertAlmostEqual(got["corrections"][0]["add"]["angle_deg"], 360 - math.degrees(math.atan2(5, 7)), delta=1e-7)

        def half_mirror(data):  # the places alone: the correction stands on the other side of the trial weight
            data["angles"]["rise"] = "with rotation"
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(changed(half_mirror)))
        self.assertAlmostEqual(got["corrections"][0]["add"]["angle_deg"], math.degrees(math.atan2(5, 7)), delta=1e-7)

    def test_two_planes_with_a_trial_weight_kept(self):
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(two_planes()))
        for correction, planted in zip(got["corrections"], (cmath.rect(300, math.radians(40)), cmath.rect(200, math.radians(250)))):
            want = -(planted + 100)
            self.assertAlmostEqual(correction["mass_kg"], abs(want) / 1000, delta=1e-9)
            self.assertAlmostEqual(correction["add"]["angle_deg"], math.degrees(cmath.phase(want)) % 360, delta=1e-6)
        self.assertTrue(got["told_apart"])
        self.assertAlmostEqual(got["condition"], 1.2 / 0.8, delta=0.2)  # but for the sensors' scales
        self.assertEqual([j["where"] for j in got["judged"]], ["left", "right"])
        self.assertAlmostEqual(got["judged"][0]["limit_kg_m"], got["permissible_kg_m"] / 2, delta=1e-15)

    def test_bearings_take_their_share(self):
        def bearings(data):
            data["rotor"].update({"bearings": ["0 m", "1 m"], "centre_of_mass": "0.4 m"})
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(changed(bearings, two_planes())))
        self.assertAlmostEqual(got["at_bearings"]["a_kg_m"], 0.6 * got["permissible_kg_m"], delta=1e-12)
        self.assertEqual([j["where"] for j in got["judged"]], ["bearing A", "bearing B"])
        left, right = (cmath.rect(300, math.radians(40)) + 100, cmath.rect(200, math.radians(250)) + 100)
        self.assertAlmostEqual(got["judged"][0]["unbalance_kg_m"], abs(0.8 * left + 0.4 * right) * 0.2e-3, delta=1e-9)

    def test_a_remembered_bound_decides_nothing_until_it_is_confirmed(self):
        def near(data):
            data["rotor"].update({"bearings": ["0 m", "1 m"], "centre_of_mass": "0.1 m"})

        def confirmed(data):
            near(data)
            data["rotor"]["bounds_confirmed"] = True
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(changed(near, two_planes())))
        self.assertEqual((got["verdict"], got["reason"]), ("unproven", "limit-unconfirmed"))
        self.assertEqual(self.json_of("balance", "-", status=1, stdin=bytes_of(changed(confirmed, two_planes())))["verdict"], "fail")

    def test_planes_that_act_alike_get_no_correction(self):
        text = self.text_of("balance", "-", status=1, stdin=bytes_of(two_planes(0.99)))
        self.assertIn("not to be told apart", text)
        self.assertNotIn("Correction,", text)

    def test_no_doubt_stated_and_no_run_repeated_proves_nothing(self):
        def bare(data):
            del data["sensors"][0]["amplitude_u"], data["sensors"][0]["phase_u"]
            del data["runs"][2]
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(changed(bare)))
        self.assertEqual((got["verdict"], got["reason"]), ("unproven", "uncertainty-not-known"))

    def test_a_run_as_found_alone_asks_for_trial_runs(self):
        def only(data):
            del data["runs"][1:]
        text = self.text_of("balance", "-", status=1, stdin=bytes_of(changed(only)))
        self.assertIn("trial weight in each plane", text)
        self.assertIn("Trial weight to begin with", text)

    def test_weights_places_holes_and_pads(self):
        def weights(data):
            data["planes"][0].update({"places": {"count": 6}, "weights": {"masses": ["10 g", "20 g"], "most_per_place": 4}})
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(changed(weights)))["corrections"][0]
        total = sum(cmath.rect(p["unbalance_kg_m"], math.radians(p["angle_deg"])) for p in got["parts"])
        self.assertAlmostEqual(abs(total - cmath.rect(got["add"]["unbalance_kg_m"], math.radians(got["add"]["angle_deg"]))), 0, delta=1e-12)
        self.assertTrue(all(math.isclose(p["angle_deg"] % 60, 0, abs_tol=1e-6) for p in got["parts"]))
        self.assertLess(got["weights"]["left"]["unbalance_kg_m"], 0.01 * 0.2)

        def drill(data):
            data["planes"][0]["drill"] = {"diameter": "20 mm", "point": "180 deg", "density": "7200 kg/m3", "most_depth": "50 mm"}
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(changed(drill)))["corrections"][0]
        self.assertAlmostEqual(got["holes"][0]["to_tip_m"], 0.7 / math.sqrt(74) / (7200 * math.pi * 1e-4), delta=1e-9)
        self.assertAlmostEqual(got["parts"][0]["angle_deg"], 180 - math.degrees(math.atan2(5, 7)), delta=1e-7)

        def grind(data):
            data["planes"][0]["grind"] = {"length": "50 mm", "width": "20 mm", "density": "7200 kg/m3", "most_depth": "1 mm"}
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(changed(grind)))["corrections"][0]
        self.assertFalse(got["pads"][0]["reaches"])

    def test_a_key_beside_the_hub(self):
        got = self.json_of("balance", "-", status=1, stdin=bytes_of(changed(lambda d: d.update({"key": KEY}))))
        # 8 x 7 in a seat of 4: the part above the shaft stands 14 to 17 mm from the axis, 10 mm of it beside the hub.
        self.assertAlmostEqual(got["key"]["unbalance_kg_m"], 7850 * 0.008 / 2 * (0.017**2 - 0.014**2) * 0.010, delta=1e-12)
        self.assertTrue(got["key"]["towards_key"])

    def test_the_text_says_the_angles_and_the_caution(self):
        text = self.text_of("balance", "-", status=1, stdin=bytes_of(ONE_PLANE))
        for part in ("FAIL", "rising against rotation", "a lag", "81.4 g", "324.5°", "144.5°", "locked out", "bullet"):
            self.assertIn(part, text)

    def test_the_published_examples(self):
        verdicts = {p.stem: self.json_of("balance", str(p), status=0 if s else 1)["verdict"]
                    for p, s in zip(EXAMPLES, (True, True, False))}
        self.assertEqual(verdicts, {"balance-aquarium-impeller": None, "balance-greenhouse-rotor": "pass",
                                    "balance-orchard-impeller": "fail"})


def put(path, value):
    """A change of ONE_PLANE at a path such as "rotor/mass"; None takes the key out."""
    def change(data):
        *way, last = [int(p) if p.isdigit() else p for p in path.split("/")]
        for step in way:
            data = data[step]
        if value is None:
            del data[last]
        else:
            data[last] = value
    return change


# Refused by the schema and by the program.
BAD = {
    "format": put("format", "pumpwright-chain"), "version": put("version", 2), "unknown key": put("colour", "red"),
    "no name": put("name", None), "no angles": put("angles", None), "angles without phase": put("angles/phase", None),
    "rise": put("angles/rise", "clockwise"), "mass as number": put("rotor/mass", 200), "mass without unit": put("rotor/mass", "200"),
    "no grade": put("rotor/grade", None), "grade as word": put("rotor/grade", "fine"),
    "bearings without centre": put("rotor/bearings", ["0 m", "1 m"]), "centre without bearings": put("rotor/centre_of_mass", "1 m"),
    "one bearing": lambda d: d["rotor"].update({"bearings": ["0 m"], "centre_of_mass": "1 m"}),
    "no planes": put("planes", []), "radius missing": put("planes/0/radius", None), "unnamed plane": put("planes/0/name", ""),
    "two ways": lambda d: d["planes"][0].update({"weights": {"masses": ["1 g"]}, "grind": {
        "length": "1 mm", "width": "1 mm", "density": "7 kg/L", "most_depth": "1 mm"}}),
    "two places": put("planes/0/places", {"count": 2}), "no weights": put("planes/0/weights", {"masses": []}),
    "drill of no size": put("planes/0/drill", {"density": "7 kg/L", "most_depth": "1 mm"}),
    "runs without sensors": put("sensors", None), "half a doubt": put("sensors/0/phase_u", None),
    "no runs": put("runs", []), "unnamed run": put("runs/0/name", None), "weight without angle": put("runs/1/fitted/0/angle", None),
    "reading without phase": put("runs/0/readings/0/phase", None), "amplitude as number": put("runs/0/readings/0/amplitude", 7),
    "key of no system": put("key", {**KEY, "system": "imperial"}), "hub with a full key": put("key", {**KEY, "hub": "full key"}),
}

# What a schema can not say.
BAD_BEYOND_A_SCHEMA = {
    "grade too coarse": put("rotor/grade", "G 16000"), "mass in metres": put("rotor/mass", "5 m"), "mass of nothing": put("rotor/mass", "0 kg"),
    "speed of nothing": put("rotor/speed", "0 rpm"), "unknown plane": put("runs/1/fitted/0/plane", "other"),
    "unknown sensor": put("runs/1/readings/0/sensor", "other"),
    "sensor twice": lambda d: d["runs"][0]["readings"].append(d["runs"][0]["readings"][0]),
    "run of another name": put("runs/1/name", "as found"), "amplitude of another kind": put("runs/1/readings/0/amplitude", "5 mm/s"),
    "amplitude below nothing": put("runs/0/readings/0/amplitude", "-1 mil"), "doubt of nothing": put("sensors/0/amplitude_u", "0 mil"),
    "trial that changes nothing": lambda d: d["runs"][1].update({"readings": d["runs"][0]["readings"]}),
    "nothing fitted": put("runs/1/fitted", []), "key for no shaft": put("key", {**KEY, "shaft_diameter": "3 mm"}),
    "places twice": put("planes/0/places", ["0 deg", "0 deg", "120 deg", "240 deg"]),
    "places half a turn apart": put("planes/0/places", ["0 deg", "90 deg"]),
    "radial drill to the axis": put("planes/0/drill", {"direction": "radial", "diameter": "1 mm", "density": "7 kg/L", "most_depth": "200 mm"}),
    "plane without place along the shaft": lambda d: d["rotor"].update({"bearings": ["0 m", "1 m"], "centre_of_mass": "1 m"}),
    "bearings in one place": lambda d: (d["rotor"].update({"bearings": ["0 m", "0 m"], "centre_of_mass": "1 m"}),
                                        d["planes"][0].update({"at": "0 m"})),
    "more planes than sensors": lambda d: d["planes"].append({"name": "other", "radius": "1 mm"}),
}


class BalanceSchema(SchemaAndDecoder, ProgramTest):
    def setUp(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)
        self.validator = jsonschema.Draft202012Validator(SCHEMA)

    def test_both_accept_the_examples(self):
        self.assertEqual(len(EXAMPLES), 3)
        for path in EXAMPLES:
            self.assertTrue(self.validator.is_valid(document(path)), path.name)
        self.assertTrue(self.validator.is_valid(ONE_PLANE))
        self.assertTrue(self.validator.is_valid(two_planes()))

    def test_both_refuse_what_a_schema_can_judge(self):
        self.refuse_each("balance", {name: changed(change) for name, change in BAD.items()}, self.validator, True)

    def test_the_program_refuses_what_a_schema_can_not_say(self):
        self.refuse_each("balance", {name: changed(change) for name, change in BAD_BEYOND_A_SCHEMA.items()}, self.validator, False)

    def test_repeated_keys_and_broken_files_are_refused(self):
        for data in (b"{", b"[]", b'{"format": "pumpwright-balance", "format": "pumpwright-balance"}', b"\xff"):
            self.complaint_of("balance", "-", stdin=data)


if __name__ == "__main__":
    unittest.main()
