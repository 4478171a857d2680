"""What the shop remembers of a pump: three builds of one serial number, a strip-down between them, readings that move."""

import json
import unittest

from server_harness import ServerTest, demo_job, now_text


class Past(ServerTest):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        make_up = demo_job()["make_up"]
        stripped = {**make_up, "sheets": {**make_up["sheets"], "strip-down": {"complaint": "leaks again", "hours_run": "5100 h"}}}
        for number, sheets, float_thou in (("G-5001", make_up, "3.0"), ("G-5002", stripped, "4.0"), ("G-5003", make_up, "5.5")):
            opened = cls.open_job(number, make_up=sheets)
            assert opened.status == 201, opened.body
            cls.read(number, "e1", "end-float", instrument="dial-1", value=float_thou)
        cls.read("G-5002", "s1", "strip-down", sheet={"found": ["elastomer-cut", "leaks-at-once"]})
        lead = cls.browsers["lead-hand"]
        accepted = lead.hand_in("G-5001", ("deviation-accepted", {
            "event": "deviation-accepted", "check": "end-float", "reason": "agreed with the grower", "time": now_text(), "actor": "R.T."}))
        assert accepted.json["refused"] == [], accepted.body
        other = demo_job("orchard-wash")
        assert cls.open_job("O-5004", name="orchard-wash", make_up=other["make_up"]).status == 201

    @classmethod
    def read(cls, number, ref, check, **content):
        lead = cls.browsers["lead-hand"]
        if not getattr(cls, "dial", False):
            cls.dial = True
            done = lead.hand_in("shop", ("instrument-set", {"instrument": {
                "id": "dial-1", "kind": "dial-indicator", "unit": "thou", "graduation": "0.5", "mpe": "0.5", "calibrated": "2026-01-01",
                "due": "2099-01-01"}}))
            assert done.json["refused"] == [], done.body
        done = lead.hand_in(number, ("reading", {"event": "reading", "id": ref, "check": check, "time": now_text(), "actor": "R.T.", **content}))
        assert done.json["refused"] == [], done.body

    def past(self, number):
        answer = self.browsers["read-only"].ask("GET", f"/api/jobs/{number}/past")
        self.assertEqual(answer.status, 200, answer.body)
        return answer.json

    def test_the_newest_job_knows_both_before_it_and_why_one_came_back(self):
        builds = self.past("G-5003")["builds"]
        self.assertEqual([b["number"] for b in builds], ["G-5002", "G-5001"])
        self.assertEqual((builds[0]["complaint"], builds[0]["hours_run"]), ("leaks again", "5100 h"))
        self.assertIn("damaged when it was fitted", builds[0]["cause"]["headline"]["en"])
        self.assertIn("Burrs off", builds[0]["cause"]["change"][0]["en"])
        self.assertIsNone(builds[1]["cause"])
        self.assertEqual(builds[1]["deviations"][0]["reason"], "agreed with the grower")
        self.assertFalse(builds[0]["released"])

    def test_a_reading_that_grows_with_every_build_is_said_to(self):
        (row,) = self.past("G-5003")["readings"]
        self.assertEqual((row["check"], row["moves"]), ("end-float", "grows"))
        self.assertEqual([v["number"] for v in row["values"]], ["G-5001", "G-5002", "G-5003"])
        for value, thou in zip(row["values"], (3.0, 4.0, 5.5)):
            self.assertAlmostEqual(value["value"]["si"], thou * 25.4e-6, delta=1e-12)
        (two,) = self.past("G-5002")["readings"]
        self.assertIsNone(two["moves"])  # two builds are no trend

    def test_the_first_job_and_another_pump_know_nothing(self):
        for number in ("G-5001", "O-5004"):
            self.assertEqual(self.past(number), {"builds": [], "readings": []})


if __name__ == "__main__":
    unittest.main()
