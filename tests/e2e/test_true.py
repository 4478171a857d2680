"""`pumpwright true` on the published examples, the demonstration's jobs, and readings with answers worked out by hand."""

import copy
import json
import unittest

import jsonschema

from harness import ROOT, ProgramTest, SchemaAndDecoder, document, run

SCHEMA = json.loads((ROOT / "docs/true.schema.json").read_text())
THOU = 25.4e-6
NINE = "docs/examples/true-impeller-nine-thou.json"
BRACKET = "docs/examples/true-bracket-nine-thou.json"
AFTERWARDS = "docs/examples/true-aquarium-afterwards.json"


def bytes_of(value):
    return json.dumps(value).encode()


class TrueRunning(ProgramTest):
    def test_the_nine_thou_impeller_is_a_sleeve_that_is_not_home(self):
        got = self.json_of("true", NINE, status=1)["rotating"]
        self.assertEqual(got["culprit"], "sleeve-not-home")
        blame = got["hypotheses"][0]["blames"][0]
        self.assertAlmostEqual(blame["tilt_rad"], 6e-3, delta=0.2e-3)
        self.assertAlmostEqual(blame["keyway_deg"], 120, delta=3)
        alike = {h["name"] for h in got["hypotheses"] if h["reads_like_the_best"] and len(h["blames"]) == 1}
        self.assertEqual(alike, {"sleeve-not-home", "sleeve-out-of-square"})
        text = " ".join(self.text_of("true", NINE, status=1).split())
        self.assertIn("The shaft is good; sleeve and impeller sit cocked 5.9 thou per inch of bore toward", text)
        self.assertIn("the sleeve is not home", text)
        self.assertIn("look for a ring pinched or dirt under it", text)

    def test_drawing_the_sleeve_is_the_least_work_that_helps(self):
        got = self.json_of("true", NINE, status=1)["rotating"]
        chosen = [r for r in got["remedies"] if r["recommended"]]
        self.assertEqual([r["work"] for r in chosen], [2])
        self.assertLess(chosen[0]["worst_tir_over_limit"], 0.5)
        self.assertEqual({p["check"] for p in chosen[0]["predicted"]}, {"bare shaft at its end", "sleeve", "impeller"})

    def test_the_bracket_that_reads_nine_is_moved_three_and_reads_three(self):
        got = self.json_of("true", BRACKET, status=1)["standing"]
        self.assertEqual(got["culprit"], "bracket-off-centre")
        chosen = next(r for r in got["remedies"] if r["recommended"])
        self.assertAlmostEqual(chosen["settings"]["move"]["moved_m"], 3 * THOU, delta=1e-9)
        self.assertEqual(chosen["settings"]["move"]["clock"], "10:00")
        bore = next(p for p in chosen["predicted"] if p["check"] == "bracket bore")
        self.assertAlmostEqual(bore["tir_m"], 3 * THOU, delta=0.2 * THOU)
        self.assertAlmostEqual(got["tapping"]["left_m"], 2 * THOU, delta=1e-9)
        text = self.text_of("true", BRACKET, status=1)
        self.assertIn("move the bracket 3.0 thou toward 10 o'clock", text.lower())
        self.assertIn("It has moved 1.0 thou; 2.0 thou to go.", text)

    def test_standing_parts_speak_in_clock_positions_only_and_rotating_parts_in_degrees_only(self):
        rotating = json.dumps(self.json_of("true", NINE, status=1)["rotating"])
        self.assertIn("keyway_deg", rotating)
        self.assertNotIn("clock", rotating)
        standing = json.dumps(self.json_of("true", BRACKET, status=1)["standing"])
        self.assertIn("clock_deg", standing)
        self.assertNotIn("keyway_deg", standing)

    def test_what_was_read_afterwards_stands_beside_what_was_foretold(self):
        got = self.json_of("true", AFTERWARDS, status=1)["rotating"]
        self.assertEqual([s["surprise"] for s in got["after"]], [False, False])
        self.assertIn("as foretold", self.text_of("true", AFTERWARDS, status=1))
        same = document(ROOT / AFTERWARDS)
        same["rotating"]["after"]["stations"][0].update(tir="9.4 thou", high_spot_deg=75)
        text = self.text_of("true", "-", status=1, stdin=bytes_of(same))
        self.assertIn("a surprise", text)

    def test_good_readings_leave_everything_where_it_is(self):
        good = document(ROOT / NINE)
        good["rotating"]["stations"][1].update(tir="0.6 thou")
        good["rotating"]["stations"][2].update(tir="0.9 thou")
        got = self.json_of("true", "-", stdin=bytes_of(good))["rotating"]
        self.assertEqual(got["culprit"], "nothing-wrong")
        self.assertEqual(got["verdict"], "pass")
        self.assertTrue(got["alone"])

    def test_the_demonstration_jobs_are_answered(self):
        orchard = self.json_of("true", "demo/orchard-wash.json", status=1)
        self.assertEqual(orchard["left_out"], [])
        self.assertEqual(orchard["rotating"]["culprit"], "impeller-not-home")
        self.assertIsNone(orchard["standing"]["room_m"])
        greenhouse = self.json_of("true", "demo/greenhouse-circulator.json")
        self.assertFalse(greenhouse["rotating"]["out_of_limits"])
        aquarium = self.json_of("true", "demo/aquarium-seawater.json", "--room", "2 thou")
        self.assertEqual({s["part"] for s in aquarium["rotating"]["stations"]}, {"shaft"})
        self.assertAlmostEqual(aquarium["standing"]["room_m"], 2 * THOU, delta=1e-12)

    def test_the_shafts_limits_are_those_of_the_standards(self):
        # NEMA MG 1, condensed 2011, 8.4: 0.002 in TIR up to 1.625 in. IEC 60072-1 as restated in EASA AR100-2015, table 2-4,
        # normal class: 0.040 mm over 18 to 30 mm. Both read in restatements.
        for job, limit_m in (("aquarium-seawater", 0.002 * 25.4e-3), ("orchard-wash", 40e-6)):
            done = run("true", f"demo/{job}.json", "--json")
            shaft = next(s for s in json.loads(done.stdout)["rotating"]["stations"] if s["part"] == "shaft")
            self.assertAlmostEqual(shaft["limit_m"], limit_m, delta=1e-9)

    def test_a_replaced_sweep_does_not_count(self):
        job = document(ROOT / "demo/orchard-wash.json")
        events = job["events"]
        index = next(i for i, e in enumerate(events) if e.get("check") == "impeller-sweep")
        anew = copy.deepcopy(events[index])
        anew.update(id="swept-again", replaces=events[index]["id"], time="2026-11-24T10:52:00Z")
        for point in anew["sweep"]["points"]:
            point["reading"] = "0.00"
        events.insert(index + 1, anew)
        got = self.json_of("true", "-", stdin=bytes_of(job))
        impeller = next(s for s in got["rotating"]["stations"] if s["part"] == "impeller")
        self.assertEqual(impeller["tir_m"], 0)
        self.assertFalse(got["rotating"]["out_of_limits"])

    def test_a_size_that_is_missing_is_named(self):
        job = document(ROOT / "demo/orchard-wash.json")
        del job["make_up"]["dimensions"]["impeller_width"]
        got = self.json_of("true", "-", stdin=bytes_of(job))
        self.assertEqual([(e["check"], e["why"]) for e in got["left_out"]],
                         [("impeller-sweep", "the make-up does not give impeller_width")])


def changed(path, change):
    value = document(ROOT / path)
    change(value)
    return value


BAD = {
    "unknown key": changed(NINE, lambda d: d.update(color="red")),
    "no chain": changed(NINE, lambda d: d.pop("rotating")),
    "wrong version": changed(NINE, lambda d: d.update(version=2)),
    "no stations": changed(NINE, lambda d: d["rotating"].update(stations=[])),
    "no tir": changed(NINE, lambda d: d["rotating"]["stations"][0].pop("tir")),
    "negative tir": changed(NINE, lambda d: d["rotating"]["stations"][0].update(tir="-1 thou")),
    "tir without unit": changed(NINE, lambda d: d["rotating"]["stations"][0].update(tir="9")),
    "clock for what turns": changed(NINE, lambda d: d["rotating"]["stations"][0].update(high_spot="4:00")),
    "degrees for what stands": changed(BRACKET, lambda d: d["standing"]["stations"][0].update(high_spot_deg=30)),
    "clock of thirteen": changed(BRACKET, lambda d: d["standing"]["stations"][0].update(high_spot="13:00")),
    "no keyways": changed(NINE, lambda d: d["rotating"].update(impeller_keyways=0)),
    "bracket that turns": changed(NINE, lambda d: d["rotating"]["stations"][0].update(part="bracket")),
    "way of a face without a radius": changed(NINE, lambda d: d["rotating"]["stations"][0].update(faces="driver")),
    "shims without bolts": changed(BRACKET, lambda d: d["standing"].pop("bolt_circle")),
}
BEYOND_A_SCHEMA = {
    "two of one id": changed(NINE, lambda d: d["rotating"]["stations"][0].update(id="sleeve")),
    "dial across the move": changed(BRACKET, lambda d: d["standing"]["dial"].update(at="1:00")),
    "dial at no station": changed(BRACKET, lambda d: d["standing"]["dial"].update(station="elsewhere")),
    "after at no station": changed(AFTERWARDS, lambda d: d["rotating"]["after"]["stations"][0].update(id="new")),
    "no uncertainty": changed(NINE, lambda d: d["rotating"].pop("u")),
    "high spot missing": changed(NINE, lambda d: d["rotating"]["stations"][0].pop("high_spot_deg")),
}


class TrueSchema(SchemaAndDecoder, ProgramTest):
    validator = jsonschema.Draft202012Validator(SCHEMA)

    def test_both_accept_the_examples(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)
        examples = sorted((ROOT / "docs/examples").glob("true-*.json"))
        self.assertGreaterEqual(len(examples), 3)
        for path in examples:
            with self.subTest(path.name):
                jsonschema.validate(document(path), SCHEMA, jsonschema.Draft202012Validator)
                self.assertIn(run("true", str(path)).returncode, (0, 1))

    def test_both_refuse_what_a_schema_can_judge(self):
        self.refuse_each("true", BAD, self.validator, True)

    def test_the_program_refuses_what_a_schema_can_not(self):
        self.refuse_each("true", BEYOND_A_SCHEMA, self.validator, False)


if __name__ == "__main__":
    unittest.main()
