"""`pumpwright align` on literal machines, and its file format: published schema and decoder on one corpus."""

import copy
import json
import math
import unittest

import jsonschema

from harness import ROOT, ProgramTest, SchemaAndDecoder, document

SCHEMA = json.loads((ROOT / "docs/align.schema.json").read_text())
EXAMPLES = sorted((ROOT / "docs/examples").glob("align-*.json"))
MIL = 25.4e-6


def readings(up, right, places=(12, 3, 6, 9)):
    """In mil, zeroed at the first place."""
    wave = [up * math.cos(p * math.pi / 6) + right * math.sin(p * math.pi / 6) for p in places]
    return [{"at": str(p), "reading": f"{w - wave[0]:.9f} mil"} for p, w in zip(places, wave)]


# Two rims 6 in apart; the moved shaft stands 12 mil high at the first and 10 at the second, 4 to the left at both; feet 14 and 32 in
# from the first plane, coupling half way. High by 12 - 14/3 = 22/3 mil at the front feet, 12 - 32/3 = 4/3 at the back.
RIMS = {
    "format": "pumpwright-align", "version": 1, "name": "test", "seen_from": "fixed machine",
    "tolerance": {"offset": "2 mil", "angularity": "0.5 mil/in"}, "coupling": "3 in", "indicator": {"graduation": "0.1 thou"},
    "dials": [{"name": "S", "on": "rim", "base": "moved shaft", "at": "0 in", "readings": readings(-12, 4)},
              {"name": "M", "on": "rim", "base": "fixed shaft", "at": "6 in", "readings": readings(10, -4)}],
    "moved": {"front": {"at": "14 in"}, "back": {"at": "32 in"}},
}


def changed(change, base=None):
    data = copy.deepcopy(base or RIMS)
    change(data)
    return data


def bytes_of(data):
    return json.dumps(data).encode()


class Align(ProgramTest):
    def test_two_rims_and_the_moves_at_the_feet(self):
        got = self.json_of("align", "-", status=1, stdin=bytes_of(RIMS))
        self.assertAlmostEqual(got["warm"]["up_m"] / MIL, 11, delta=1e-6)
        self.assertAlmostEqual(got["warm"]["up_slope_m_per_m"], -1e-3 / 3, delta=1e-10)
        self.assertAlmostEqual(got["warm"]["right_m"] / MIL, -4, delta=1e-6)
        self.assertAlmostEqual(got["front"]["raise_m"] / MIL, -22 / 3, delta=1e-6)
        self.assertAlmostEqual(got["back"]["raise_m"] / MIL, -4 / 3, delta=1e-6)
        self.assertAlmostEqual(got["front"]["push_right_m"] / MIL, 4, delta=1e-6)
        self.assertAlmostEqual(got["offset"]["value_m"] / MIL, math.hypot(11, 4), delta=1e-6)
        self.assertEqual((got["offset"]["verdict"], got["angularity"]["verdict"], got["verdict"]), ("fail", "pass", "fail"))
        self.assertAlmostEqual(got["after"]["offset_m"], 0, delta=1e-12)
        # Doubt: σ = 0.1/√12 thou a reading, σ²/2 a wave, the mean of two planes half of that.
        self.assertAlmostEqual(got["warm"]["u"]["up_m"] / MIL, 0.1 / math.sqrt(12) / 2, delta=1e-6)

    def test_sag_of_the_bracket_is_taken_out(self):
        def sagging(data):
            for dial in data["dials"]:
                dial["sag"] = {"at_bottom": "-6 mil"}
                for reading, share in zip(dial["readings"], (0, 0.5, 1, 0.5)):
                    reading["reading"] = f"{float(reading['reading'].split()[0]) - 6 * share:.9f} mil"
        got = self.json_of("align", "-", status=1, stdin=bytes_of(changed(sagging)))
        self.assertAlmostEqual(got["front"]["raise_m"] / MIL, -22 / 3, delta=1e-6)

    def test_rim_and_face(self):
        def face(data):
            # Base on the moved shaft: rim -6 at the bottom, face +8, swing 4 in; feet at 10 and 22 in: raise 23 and 47 mil.
            data["coupling"] = "0 in"
            data["dials"] = [{"name": "rim", "on": "rim", "base": "moved shaft", "at": "0 in", "readings": readings(3, 0)},
                             {"name": "face", "on": "face", "base": "moved shaft", "at": "0 in", "radius": "2 in",
                              "readings": readings(-4, 0)}]
            data["moved"] = {"front": {"at": "10 in"}, "back": {"at": "22 in"}}
        got = self.json_of("align", "-", status=1, stdin=bytes_of(changed(face)))
        self.assertAlmostEqual(got["front"]["raise_m"] / MIL, 23, delta=1e-6)
        self.assertAlmostEqual(got["back"]["raise_m"] / MIL, 47, delta=1e-6)

    def test_growth_of_both_machines_sets_the_target(self):
        def warm(data):
            data["moved"]["front"]["growth"] = data["moved"]["back"]["growth"] = "3 mil"
            steel = {"height": "10 in", "expansion": "11.7e-6 1/K", "rise": "100 K"}
            data["fixed"] = {"front": {"at": "-5 in", "growth": steel}, "back": {"at": "-15 in", "growth": steel}}
        got = self.json_of("align", "-", status=1, stdin=bytes_of(changed(warm)))
        self.assertAlmostEqual(got["warm"]["up_m"] / MIL, 11 + 3 - 11.7, delta=1e-6)
        self.assertAlmostEqual(got["cold"]["up_m"] / MIL, 11, delta=1e-6)
        self.assertAlmostEqual(got["front"]["raise_m"] / MIL, -22 / 3 + 8.7, delta=1e-6)

    def test_shims_from_the_drawer(self):
        def drawer(data):
            data["shims"] = {"stock": ["1 thou", "2 thou", "5 thou", "20 thou"], "most": 3}
            data["moved"]["front"]["shims_under"] = "30 thou"
            data["moved"]["back"]["shims_under"] = "30 thou"
        got = self.json_of("align", "-", status=1, stdin=bytes_of(changed(drawer)))
        # 30 - 7.33 = 22.67: 20 + 2 + 1 is 0.33 off; 30 - 1.33 = 28.67: 20 + 5 + 5 is 1.33 off, nearer than 27.
        self.assertEqual([round(t / MIL, 6) for t in got["front"]["pack"]["shims_m"]], [20, 2, 1])
        self.assertEqual([round(t / MIL, 6) for t in got["back"]["pack"]["shims_m"]], [20, 5, 5])
        self.assertTrue(got["front"]["pack_replaces"])
        self.assertTrue(0 < got["after"]["offset_m"] < 2 * MIL)
        text = self.text_of("align", "-", status=1, stdin=bytes_of(changed(drawer)))
        self.assertIn("20 thou + 2 thou + 1 thou", text)

    def test_a_foot_that_can_not_go_lower_or_further(self):
        def bound(data):
            data["moved"]["front"].update({"shims_under": "5 mil", "bolt_play": "3 mil"})
        got = self.json_of("align", "-", status=1, stdin=bytes_of(changed(bound)))
        self.assertTrue(got["front"]["base_bound"] and got["front"]["bolt_bound"])
        self.assertFalse(got["back"]["base_bound"] or got["back"]["bolt_bound"])
        self.assertAlmostEqual(got["front"]["possible_raise_m"] / MIL, -5, delta=1e-9)
        self.assertAlmostEqual(got["front"]["possible_push_right_m"] / MIL, 3, delta=1e-9)
        self.assertGreater(got["after"]["offset_m"], MIL)
        text = self.text_of("align", "-", status=1, stdin=bytes_of(changed(bound)))
        self.assertIn("base-bound", text)
        self.assertIn("bolt-bound", text)

    def test_a_sweep_that_does_not_fit_a_turn_proves_nothing(self):
        def bad(data):
            data["dials"][0]["readings"][1]["reading"] = "+14 mil"
        got = self.json_of("align", "-", status=1, stdin=bytes_of(changed(bad)))
        self.assertEqual((got["verdict"], got["reason"]), ("unproven", "sweep-disagrees"))
        self.assertFalse(got["dials"][0]["valid"])

        def open_end(data):
            data["dials"][1]["readings"].append({"at": "12", "reading": "3 mil"})
        got = self.json_of("align", "-", status=1, stdin=bytes_of(changed(open_end)))
        self.assertEqual(got["reason"], "sweep-disagrees")
        self.assertAlmostEqual(got["dials"][1]["closure_m"] / MIL, 3, delta=1e-6)

    def test_a_soft_foot_comes_first(self):
        def soft(data):
            data["soft_foot"] = {"front left": "1 mil", "front right": "6 mil", "back left": "4 mil", "back right": "0 mil"}
            data["shims"] = {"stock": ["2 thou", "5 thou"]}
        got = self.json_of("align", "-", status=1, stdin=bytes_of(changed(soft)))
        self.assertEqual((got["verdict"], got["reason"]), ("unproven", "soft-foot"))
        self.assertEqual(got["soft_foot"]["soft"], ["front right", "back left"])
        self.assertTrue(got["soft_foot"]["rocks"])
        self.assertEqual(len(got["soft_foot"]["pack"]["shims_m"]), 3)
        self.assertIn("Shim the front right foot by 6", self.text_of("align", "-", status=1, stdin=bytes_of(changed(soft))))

    def test_an_aligned_machine_passes_and_one_on_the_edge_is_unproven(self):
        def aligned(data):
            data["dials"][0]["readings"] = readings(-0.5, 0)
            data["dials"][1]["readings"] = readings(0.5, 0)
        self.assertEqual(self.json_of("align", "-", stdin=bytes_of(changed(aligned)))["verdict"], "pass")

        def coarse(data):
            aligned(data)
            data["tolerance"]["offset"] = "0.51 mil"
        got = self.json_of("align", "-", status=1, stdin=bytes_of(changed(coarse)))
        self.assertEqual((got["verdict"], got["reason"]), ("unproven", "limit-in-uncertainty"))

        def late(data):
            aligned(data)
            data["indicator"]["in_date"] = False
        self.assertEqual(self.json_of("align", "-", status=1, stdin=bytes_of(changed(late)))["reason"], "instrument-out-of-date")

    def test_clock_positions_and_degrees_are_the_same_places(self):
        def by_angle(data):
            for dial in data["dials"]:
                for reading, degrees in zip(dial["readings"], (0, 90, 180, 270)):
                    reading["at"] = f"{degrees} deg"
        one, two = (self.json_of("align", "-", status=1, stdin=bytes_of(d)) for d in (RIMS, changed(by_angle)))
        self.assertEqual(one["warm"], two["warm"])

    def test_the_text_says_where_one_stands_and_the_caution(self):
        text = self.text_of("align", "-", status=1, stdin=bytes_of(RIMS))
        for part in ("FAIL", "as seen from the outer end of the fixed machine", "Front feet: lower 7.33 mil", "push 4.00 mil to the right",
                     "locked out", "shim under a"):
            self.assertIn(part.replace("mil", "thou"), text)

    def test_the_published_examples(self):
        verdicts = {p.stem: self.json_of("align", str(p), status=1) for p in EXAMPLES}
        self.assertEqual({name: (v["verdict"], v["reason"]) for name, v in verdicts.items()}, {
            "align-aquarium-soft-foot": ("unproven", "soft-foot"),
            "align-greenhouse-rim-and-face": ("fail", "outside-guarded"),
            "align-orchard-two-rims": ("fail", "outside-guarded")})
        self.assertTrue(verdicts["align-orchard-two-rims"]["after"]["within"])


def put(path, value):
    """A change of RIMS at a path such as "tolerance/offset"; None takes the key out."""
    def change(data):
        *way, last = [int(p) if p.isdigit() else p for p in path.split("/")]
        for step in way:
            data = data[step]
        if value is None:
            del data[last]
        else:
            data[last] = value
    return change


FACE = {"name": "F", "on": "face", "base": "fixed shaft", "at": "0 in", "radius": "2 in", "readings": readings(1, 0)}

BAD = {
    "format": put("format", "pumpwright-chain"), "version": put("version", 2), "unknown key": put("colour", "red"),
    "no name": put("name", None), "no side": put("seen_from", None), "other side": put("seen_from", "above"),
    "no tolerance": put("tolerance", None), "offset as number": put("tolerance/offset", 2), "offset without unit": put("tolerance/offset", "2"),
    "no graduation": put("indicator/graduation", None), "one dial": lambda d: d["dials"].pop(), "dial on what": put("dials/0/on", "hub"),
    "base nowhere": put("dials/0/base", None), "three readings": lambda d: d["dials"][0]["readings"].pop(),
    "reading as number": put("dials/0/readings/0/reading", 0), "place in words": put("dials/0/readings/1/at", "three"),
    "clock beyond twelve": put("dials/0/readings/1/at", "15"), "rim with a radius": put("dials/0/radius", "2 in"),
    "face without a radius": put("dials/0", {k: v for k, v in FACE.items() if k != "radius"}),
    "face with sag": put("dials/0", {**FACE, "sag": {"at_bottom": "-1 mil"}}), "unnamed dial": put("dials/0/name", ""),
    "no feet": put("moved", None), "no back feet": put("moved/back", None), "growth without a rise": put(
        "moved/front/growth", {"height": "1 in", "expansion": "1e-5 1/K"}),
    "fixed foot that does not grow": put("fixed", {"front": {"at": "-1 in"}, "back": {"at": "-2 in", "growth": "1 mil"}}),
    "empty drawer": put("shims", {"stock": []}), "seven shims": put("shims", {"stock": ["1 thou"], "most": 7}),
    "three feet": put("soft_foot", {"front left": "1 mil", "front right": "1 mil", "back left": "1 mil"}),
}

BAD_BEYOND_A_SCHEMA = {
    "offset in degrees": put("tolerance/offset", "2 deg"), "tolerance of nothing": put("tolerance/offset", "0 mil"),
    "rims in one plane": put("dials/1/at", "0 in"), "dials of one name": put("dials/1/name", "S"), "feet in one place": put("moved/back/at", "14 in"),
    "two faces": lambda d: d.update({"dials": [FACE, {**FACE, "name": "G"}]}), "reading of metres": put("dials/0/readings/1/reading", "1 m"),
    "place twice": put("dials/0/readings/2/at", "3"), "shims below nothing": put("moved/front/shims_under", "-1 mil"),
    "hot as the sun": put("moved/front/growth", {"height": "1 in", "expansion": "1e-5 1/K", "rise": "5500 K"}),
    "foot below nothing": put("soft_foot", {"front left": "-1 mil", "front right": "1 mil", "back left": "1 mil", "back right": "0 mil"}),
}


class AlignSchema(SchemaAndDecoder, ProgramTest):
    def setUp(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)
        self.validator = jsonschema.Draft202012Validator(SCHEMA)

    def test_both_accept_the_examples(self):
        self.assertEqual(len(EXAMPLES), 3)
        for path in EXAMPLES:
            self.assertTrue(self.validator.is_valid(document(path)), path.name)
        self.assertTrue(self.validator.is_valid(RIMS))

    def test_both_refuse_what_a_schema_can_judge(self):
        self.refuse_each("align", {name: changed(change) for name, change in BAD.items()}, self.validator, True)

    def test_the_program_refuses_what_a_schema_can_not_say(self):
        self.refuse_each("align", {name: changed(change) for name, change in BAD_BEYOND_A_SCHEMA.items()}, self.validator, False)

    def test_broken_files_are_refused(self):
        for data in (b"{", b"[]", b'{"format": "pumpwright-align", "format": "pumpwright-align"}', b"\xff"):
            self.complaint_of("align", "-", stdin=data)


if __name__ == "__main__":
    unittest.main()
