"""`pumpwright vibration`: tones planted in recordings, zones, its schema, and what is refused."""

import json
import math
import random
import struct
import tempfile
import unittest
from pathlib import Path

import jsonschema

from harness import ROOT, ProgramTest, SchemaAndDecoder, examples_of

SCHEMA = json.loads((ROOT / "docs/vibration.schema.json").read_text())
EXAMPLE = json.loads((ROOT / "docs/examples/vibration-orchard-wash.json").read_text())

RATE = 12_800
TURNING = 2920 / 60
VANE_PASS = 6 * TURNING
OUTER_RACE = 9 * TURNING / 2 * (1 - 15.1 / 60)
# Peak accelerations [m/s2] of what is planted.
PLANTED = {TURNING: 2.0, VANE_PASS: 3.1, OUTER_RACE: 1.4}


def recording(seconds, noise=1.0, seed=1):
    chance = random.Random(seed)
    return [sum(peak * math.cos(2 * math.pi * hz * i / RATE) for hz, peak in PLANTED.items()) + chance.gauss(0, noise)
            for i in range(int(seconds * RATE))]


def wav(samples, full_scale, code, bits, channels=1):
    """The samples in the last channel, the others silent."""
    def packed(x):
        if code == 3:
            return struct.pack("<f", x / full_scale)
        whole = max(-(1 << (bits - 1)), min((1 << (bits - 1)) - 1, round(x / full_scale * (1 << (bits - 1)))))
        return whole.to_bytes(bits // 8, "little", signed=True)
    silent = bytes(bits // 8) * (channels - 1)
    data = b"".join(silent + packed(x) for x in samples)
    frame = bits // 8 * channels
    head = struct.pack("<HHIIHH", code, channels, RATE, RATE * frame, frame, bits)
    return (b"RIFF" + struct.pack("<I", 36 + len(data)) + b"WAVEfmt " + struct.pack("<I", 16) + head
            + b"data" + struct.pack("<I", len(data)) + data)


def changed(**more):
    return {**EXAMPLE, **more}


BAD = {
    "no speed": {k: v for k, v in EXAMPLE.items() if k != "speed"},
    "nothing read": {k: v for k, v in EXAMPLE.items() if k != "overall"},
    "an empty list read": changed(overall=[]),
    "category without power": {k: v for k, v in EXAMPLE.items() if k != "power"},
    "third category": changed(category="III"),
    "no vanes": changed(vanes=0),
    "two elements": changed(bearings=[{**EXAMPLE["bearings"][0], "elements": 2}]),
    "nobody confirmed": changed(confirmed_by=""),
    "unknown key": changed(weight="2 kg"),
    "wav without full scale": changed(signal={"place": "a", "file": "a.wav", "unit": "g"}),
    "csv without rate": changed(signal={"place": "a", "file": "a.csv", "unit": "g", "column": "x"}),
    "csv with rate and time": changed(
        signal={"place": "a", "file": "a.csv", "unit": "g", "column": "x", "rate": "1 kHz", "time": "t"}),
}
BEYOND_A_SCHEMA = {
    "speed as power": changed(speed="4 kW"),
    "vibration as length": changed(overall=[{"place": "a", "velocity": "3 mm"}]),
    "negative velocity": changed(overall=[{"place": "a", "velocity": "-3 mm/s"}]),
    "a place twice": changed(overall=[EXAMPLE["overall"][0]] * 2),
    "a pump too small": changed(power="1 kW"),
    "elements larger than their circle": changed(
        bearings=[{**EXAMPLE["bearings"][0], "element_diameter": "70 mm"}]),
    "recording not there": changed(
        signal={"place": "a", "file": "no-such-recording.wav", "unit": "g", "full_scale": 50}),
}


class Vibration(SchemaAndDecoder, ProgramTest):
    validator = jsonschema.Draft202012Validator(SCHEMA)

    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = Path(folder.name)

    def analysed(self, name, content, **signal):
        (self.folder / name).write_bytes(content)
        file = changed(signal={"place": "recorder", "file": name, "unit": "m/s2", "segment": 16384, **signal})
        path = self.folder / "pump.json"
        path.write_text(json.dumps(file))
        return self.json_of("vibration", str(path), status=1)

    def assert_planted(self, got):
        named = {}
        for tone in got["tones"]:
            if tone["may_be"]:
                named.setdefault((tone["may_be"][0]["of"], tone["may_be"][0]["multiple"]), tone)
        for key, hz in ((("turning", 1), TURNING), (("vane-pass", 1), VANE_PASS), (("outer-race", 1), OUTER_RACE)):
            tone = named[key]
            self.assertEqual(len(tone["may_be"]), 1)
            self.assertAlmostEqual(tone["frequency_Hz"], hz, delta=0.1)
            rms = PLANTED[hz] / math.sqrt(2)
            self.assertAlmostEqual(tone["rms_si"], rms, delta=0.01 * rms)
            self.assertAlmostEqual(tone["velocity_rms_m_s"], rms / (2 * math.pi * hz), delta=0.01 * rms / (2 * math.pi * hz))
        # As velocities the turning tone is the strongest although its acceleration is not.
        self.assertEqual(got["tones"][0]["may_be"][0]["of"], "turning")

    def test_planted_tones_come_back_within_one_per_cent_and_named_from_every_kind_of_wav(self):
        samples = recording(60)
        for code, bits, channel in ((1, 16, 1), (1, 24, 2), (1, 32, 1), (3, 32, 2)):
            with self.subTest(f"code {code}, {bits} bits, channel {channel}"):
                got = self.analysed("pump.wav", wav(samples, 50.0, code, bits, channel), full_scale=50, channel=channel)
                self.assertEqual(got["spectrum"]["samples"], len(samples))
                self.assert_planted(got)

    def test_planted_tones_come_back_from_csv_by_rate_or_by_time(self):
        samples = recording(30, seed=2)
        semicolons = "t;a\n" + "".join(f"{i / RATE:.7f};{x:.5f}\n" for i, x in enumerate(samples))
        self.assert_planted(self.analysed("pump.csv", semicolons.encode(), column="a", time="t"))
        plain = "a\n" + "".join(f"{x:.5f}\n" for x in samples)
        self.assert_planted(self.analysed("pump.csv", plain.encode(), column="a", rate=f"{RATE} Hz"))

    def test_the_overall_velocity_of_a_recording_is_that_of_its_tones_in_the_band(self):
        got = self.analysed("pump.wav", wav(recording(30, noise=0), 50.0, 3, 32), full_scale=50)
        expected = math.sqrt(sum((peak / math.sqrt(2) / (2 * math.pi * hz)) ** 2 for hz, peak in PLANTED.items()))
        place = next(p for p in got["places"] if p["place"] == "recorder")
        self.assertAlmostEqual(place["rms_m_s"], expected, delta=2e-3 * expected)

    def test_zones_decide_nothing_until_somebody_confirmed_them(self):
        got = self.json_of("vibration", "-", status=1, stdin=json.dumps(EXAMPLE).encode())
        self.assertEqual((got["verdict"], got["reason"]), ("unproven", "limit-unconfirmed"))
        self.assertEqual([p["zone"] for p in got["places"]], ["A", "A", "A", "A"])
        confirmed = changed(confirmed_by="L.H., against the standard")
        got = self.json_of("vibration", "-", stdin=json.dumps(confirmed).encode())
        self.assertEqual(got["verdict"], "pass")
        for reading, verdict, zone in (("7.5 mm/s", "fail", "C"), ("5.2 mm/s", "unproven", "C"), ("0.3 in/s", "fail", "C")):
            confirmed["overall"] = [{"place": "a", "velocity": reading}]
            got = self.json_of("vibration", "-", status=1, stdin=json.dumps(confirmed).encode())
            self.assertEqual((got["verdict"], got["places"][0]["zone"]), (verdict, zone))

    def test_without_category_no_zone_and_no_verdict(self):
        file = {k: v for k, v in EXAMPLE.items() if k not in ("category", "power")}
        got = self.json_of("vibration", "-", stdin=json.dumps(file).encode())
        self.assertIsNone(got["verdict"])
        self.assertIn("no zone is known", self.text_of("vibration", "-", stdin=json.dumps(file).encode()))

    def test_the_sheet_names_tones_and_cautions(self):
        (self.folder / "pump.wav").write_bytes(wav(recording(20), 50.0, 1, 16))
        path = self.folder / "pump.json"
        path.write_text(json.dumps(changed(
            signal={"place": "recorder", "file": "pump.wav", "unit": "m/s2", "full_scale": 50})))
        text = self.text_of("vibration", str(path), status=1)
        for words in ("1 × turning", "vane pass", "outer race of pump end", "points to unbalance", "Guards on"):
            self.assertIn(words, text)

    def test_what_is_wrong_with_a_recording_is_said(self):
        good = wav(recording(1), 50.0, 1, 16)
        bad = {"no riff": b"RIFX" + good[4:], "eight bits": wav([0.0] * 9000, 50.0, 1, 8), "cut short": good[:40],
               "no such channel": good, "too short": wav([0.0] * 100, 50.0, 1, 16)}
        for name, content in bad.items():
            with self.subTest(name):
                (self.folder / "pump.wav").write_bytes(content)
                signal = {"place": "a", "file": "pump.wav", "unit": "g", "full_scale": 50,
                          "channel": 2 if name == "no such channel" else 1}
                path = self.folder / "pump.json"
                path.write_text(json.dumps(changed(signal=signal)))
                self.assertIn("pump", self.complaint_of("vibration", str(path)))
        (self.folder / "pump.csv").write_text("t,a\n0,1\n0.001,2\n0.003,x\n")
        signal = {"place": "a", "file": "pump.csv", "unit": "g", "column": "a", "time": "t"}
        path.write_text(json.dumps(changed(signal=signal)))
        self.assertIn("line 4", self.complaint_of("vibration", str(path)))
        path.write_text(json.dumps(changed(signal={**signal, "column": "b"})))
        self.assertIn("\"a\"", self.complaint_of("vibration", str(path)))

    def test_both_accept_the_examples(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)
        for path in examples_of("pumpwright-vibration"):
            jsonschema.validate(json.loads(path.read_text()), SCHEMA, jsonschema.Draft202012Validator)

    def test_both_refuse_what_a_schema_can_judge(self):
        self.refuse_each("vibration", BAD, self.validator, True)

    def test_the_program_refuses_what_a_schema_can_not(self):
        for name, value in BEYOND_A_SCHEMA.items():
            with self.subTest(name):
                self.assertTrue(self.validator.is_valid(value))
                self.complaint_of("vibration", "-", stdin=json.dumps(value).encode())


if __name__ == "__main__":
    unittest.main()
