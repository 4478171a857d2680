"""A recording of the running pump is kept with its job and looked at by the server: tones planted in it come back named."""

import json
import math
import unittest
import urllib.parse

from harness import ROOT
from server_harness import ServerTest, demo_job
from test_vibration import OUTER_RACE, PLANTED, TURNING, VANE_PASS, recording, wav

EXAMPLE = json.loads((ROOT / "docs/examples/vibration-orchard-wash.json").read_text())
WAV = {"Content-Type": "audio/wav"}


class Recording(ServerTest):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.job = "G-4002"
        make_up = demo_job()["make_up"]
        make_up["sheets"] = {**make_up["sheets"], "vibration": {k: EXAMPLE[k] for k in ("speed", "vanes", "line_frequency", "bearings", "category", "power")}}
        opened = cls.open_job(cls.job, by="office", make_up=make_up)
        assert opened.status == 201, opened.body
        stored = cls.browsers["technician"].ask("POST", f"/api/jobs/{cls.job}/attachments", wav(recording(60), 50.0, 1, 24), WAV)
        assert stored.status == 201, stored.body
        cls.hash = stored.json["hash"]

    def spectrum(self, **asked):
        query = urllib.parse.urlencode({"recording": self.hash, "place": "pump bearing", "unit": "m/s2", "full_scale": "50", **asked})
        return self.browsers["read-only"].ask("GET", f"/api/jobs/{self.job}/spectrum?{query}")

    def test_planted_tones_come_back_named_within_one_per_cent(self):
        got = self.spectrum().json
        overall = math.sqrt(sum((peak / math.sqrt(2) / (2 * math.pi * hz)) ** 2 for hz, peak in PLANTED.items()))
        self.assertAlmostEqual(float(got["velocity"].split()[0]), 1000 * overall, delta=0.02 * 1000 * overall)
        tones = [(line["name"]["en"], line["value"]["en"]) for line in got["lines"] if line["name"]["en"][0].isdigit()]
        for hz, name in ((TURNING, "1 × turning"), (VANE_PASS, "vane pass"), (OUTER_RACE, "outer race of pump end")):
            at, value = next((n, v) for n, v in tones if v.endswith(": " + name))
            self.assertAlmostEqual(float(at.split()[1]), hz, delta=0.1)
            rms = 1000 * PLANTED[hz] / math.sqrt(2) / (2 * math.pi * hz)
            self.assertAlmostEqual(float(value.split()[0]), rms, delta=0.011 * rms)
        numbers = [word["text"]["en"] for word in got["picture"]["words"] if word["anchor"] == "middle" and word["ink"] == "part"]
        self.assertEqual(numbers[:3], ["1", "2", "3"])

    def test_what_can_not_be_looked_at_is_named(self):
        for asked, field in (({"unit": "furlongs"}, "unit"), ({"full_scale": "loud"}, "full_scale"), ({"full_scale": "0"}, "full_scale"),
                             ({"channel": "2"}, "channel"), ({"window": "round"}, "window")):
            with self.subTest(asked=asked):
                answer = self.spectrum(**asked)
                self.assertEqual(answer.status, 422, answer.body)
                self.assertEqual(answer.json["error"]["field"], field)
        self.assertEqual(self.spectrum(recording="0" * 64).status, 404)
        self.open_job("G-4003", by="office")
        query = urllib.parse.urlencode({"recording": self.hash, "unit": "g", "full_scale": "1"})
        self.assertEqual(self.browsers["technician"].ask("GET", f"/api/jobs/G-4003/spectrum?{query}").status, 422)

    def test_a_recording_is_told_by_its_bytes_and_handed_out_as_a_file(self):
        technician = self.browsers["technician"]
        self.assertEqual(technician.ask("POST", f"/api/jobs/{self.job}/attachments", b"<html>", WAV).status, 400)
        payload = {"hash": self.hash, "media_type": "audio/wav", "name": "pump.wav", "step": "vibration", "check": "vibration"}
        answer = technician.hand_in(self.job, ("attachment-added", payload))
        self.assertEqual(answer.json["refused"], [], answer.body)
        got = technician.ask("GET", f"/api/attachments/{self.hash}")
        self.assertEqual((got.headers["Content-Type"], got.headers["Content-Disposition"]), ("audio/wav", "attachment"))


if __name__ == "__main__":
    unittest.main()
