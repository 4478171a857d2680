"""`pumpwright system`: points worked out by hand, the published example, its schema, and what is refused."""

import json
import math
import unittest

import jsonschema

from harness import ROOT, ProgramTest

SCHEMA = json.loads((ROOT / "docs/system.schema.json").read_text())
EXAMPLE = ROOT / "docs/examples/system-greenhouse.json"
RPM = math.pi / 30


def loop(k=2e5, **more):
    """H = 40 m - 1e5 Q^2, P = 2000 W + 2e5 Q, against 10 m and fittings of k Q^2 in a bore of 100 mm."""
    area = math.pi / 4 * 0.1**2
    points = [{"flow": f"{q!r} m3/s", "head": f"{40 - 1e5 * q * q!r} m", "power": f"{2000 + 2e5 * q!r} W"}
              for q in (0.0018 * i for i in range(11))]
    pipe = {"length": "0 m", "bore": "100 mm", "roughness": "0 mm", "fittings": k * 2 * 9.80665 * area**2}
    return {"format": "pumpwright-system", "version": 1, "name": "by hand", "liquid": {"name": "water"}, "temperature": "20 °C",
            "pump": {"speed": "2900 rpm", "head_curve": {"kind": "polynomial", "degree": 2},
                     "power_curve": {"kind": "polynomial", "degree": 1}, "points": points},
            "plant": {"static_head": "10 m", "pipes": [pipe]}, **more}


class System(ProgramTest):
    def sheet(self, file, status=0):
        jsonschema.validate(file, SCHEMA, jsonschema.Draft202012Validator)
        return self.json_of("system", "-", status=status, stdin=json.dumps(file).encode())

    def test_the_schema_is_a_schema(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    def test_one_pump_two_in_parallel_two_in_series(self):
        # 40 - 1e5 Q^2 = 10 + 2e5 Q^2
        self.assertAlmostEqual(self.sheet(loop())["point"]["flow_m3_s"], 0.01, delta=1e-9)
        got = self.sheet(loop(arrangement={"parallel": 2}))
        self.assertAlmostEqual(got["point"]["flow_m3_s"], math.sqrt(30 / 2.25e5), delta=1e-9)
        self.assertAlmostEqual(got["one_alone"]["flow_m3_s"], 0.01, delta=1e-9)
        self.assertAlmostEqual(self.sheet(loop(arrangement={"series": 2}))["point"]["flow_m3_s"], math.sqrt(70 / 4e5), delta=1e-9)

    def test_a_valve_or_a_speed_for_the_flow_that_is_wanted(self):
        got = self.sheet(loop(wanted_flow="0.008 m3/s"))
        self.assertAlmostEqual(got["throttle_m"], 40 - 6.4 - 22.8, delta=1e-6)
        self.assertAlmostEqual(got["speed_for_wanted_rad_s"], 2900 * RPM * math.sqrt(29.2 / 40), delta=1e-5)

    def test_the_motor_is_judged_by_rating_and_service_factor(self):
        # 4000 W at the point, at the water's density here against the curve's
        for rated, factor, verdict, reason in (("6 kW", 1.0, "pass", "within-rating"), ("3.8 kW", 1.15, "unproven", "in-service-factor"),
                                               ("3 kW", 1.15, "fail", "over-service-factor")):
            got = self.sheet(loop(motor={"power": rated, "service_factor": factor, "on_drive": False}), status=0 if verdict == "pass" else 1)
            self.assertEqual((got["verdict"], got["reason"]), (verdict, reason))
            self.assertAlmostEqual(got["power_W"], 4000, delta=2)

    def test_an_uneven_supply_leaves_less_of_the_motor(self):
        motor = {"power": "4.1 kW", "on_drive": False, "measured": {"lines": ["460 V", "467 V", "450 V"]}}
        got = self.sheet(loop(motor=motor), status=1)
        self.assertAlmostEqual(got["voltage_unbalance"], 9 / 459, delta=1e-12)
        self.assertAlmostEqual(got["derating"], 1 - 0.05 * (900 / 459 - 1), delta=1e-9)
        self.assertEqual(got["verdict"], "fail")

    def test_a_supply_too_uneven_to_run_on_proves_nothing(self):
        motor = {"power": "60 kW", "on_drive": False, "measured": {"lines": ["400 V", "460 V", "460 V"]}}
        got = self.sheet(loop(motor=motor), status=1)
        self.assertEqual((got["verdict"], got["reason"], got["derating"]), ("unproven", "supply-too-uneven", 0.75))

    def test_a_measured_input_decides_beside_the_curve(self):
        # 4000 W by the curve of 5 kW; the wattmeter says 5.4 kW at 90 %: 97 %, 118 %, 130 % of the plate
        for read, verdict, reason in (("5.4 kW", "pass", "within-rating"), ("6.55 kW", "unproven", "in-service-factor"),
                                      ("7.2 kW", "fail", "over-service-factor")):
            motor = {"power": "5 kW", "service_factor": 1.2, "on_drive": False, "efficiency": "90 %", "measured": {"input_power": read}}
            got = self.sheet(loop(motor=motor), status=0 if verdict == "pass" else 1)
            self.assertEqual((got["verdict"], got["reason"]), (verdict, reason))
        said = self.text_of("system", "-", stdin=json.dumps(loop(motor=motor)).encode(), status=1)
        self.assertIn("The motor's input says 130 % of its rating where the curve says 80 %", " ".join(said.split()))

    def test_a_thick_liquid_takes_head_flow_and_efficiency(self):
        file = loop(viscosity="120 cSt", viscous_duty={"flow": "100 m3/h", "head": "70 m"})
        got = self.sheet(file)
        f = got["viscosity_factors"]
        self.assertGreater(f["b"], 1)
        self.assertAlmostEqual(f["flow"], 2.71 ** (-0.165 * math.log10(f["b"]) ** 3.15), delta=1e-12)
        self.assertLess(got["point"]["flow_m3_s"], 0.01)
        self.assertAlmostEqual(got["water_duty"]["flow_m3_s"] * 3600, 107.057, delta=1e-3)
        for point in file["pump"]["points"]:
            point.pop("power")
        self.assertIn("best", self.complaint_of("system", "-", stdin=json.dumps(file).encode()))

    def test_says_when_the_curves_do_not_meet(self):
        file = loop()
        file["plant"]["static_head"] = "60 m"
        self.assertEqual(self.sheet(file, status=1)["point"]["meeting"], "plant-too-high")
        file["plant"] = {"static_head": "0 m", "pipes": []}
        self.assertEqual(self.sheet(file, status=1)["point"]["meeting"], "beyond-run-out")

    def test_the_published_example(self):
        got = self.sheet(json.loads(EXAMPLE.read_text()))
        self.assertEqual((got["verdict"], got["reason"]), ("pass", "within-rating"))
        text = self.text_of("system", str(EXAMPLE))
        for words in ("PASS", "Colebrook", "voltage unbalance", "gpm", "turning direction"):
            self.assertIn(words, text)
        drive = json.loads(EXAMPLE.read_text())
        drive["motor"]["on_drive"] = True
        self.assertIn("supply side reads wrong", self.text_of("system", "-", stdin=json.dumps(drive).encode()).replace("\n  ", " "))

    def test_what_can_not_be_used_is_named_with_its_place(self):
        cases = [(lambda f: f["plant"].update(points=[]), "/plant/points"),
                 (lambda f: f["plant"]["pipes"][0].update(bore="0 mm"), "/plant/pipes/0/bore"),
                 (lambda f: f["plant"]["pipes"][0].update(roughness="20 mm"), "/plant/pipes/0/roughness"),
                 (lambda f: f["pump"]["points"][3].pop("power"), "/pump/points/3"),
                 (lambda f: f.update(arrangement={"speed": "9000 rpm"}), "/arrangement/speed"),
                 (lambda f: f.update(wanted_flow="1 m3/s"), "/wanted_flow"),
                 (lambda f: f.update(motor={"power": "1 kW", "on_drive": False, "measured": {"lines": ["460 V"]}}), "/motor/measured/lines")]
        for change, place in cases:
            file = loop()
            change(file)
            self.assertIn(place, self.complaint_of("system", "-", stdin=json.dumps(file).encode()))


if __name__ == "__main__":
    unittest.main()
