"""A data logger hands in the points of a bench test: signed in, each of them once, and nothing counts until a hand takes it."""

import json
import unittest

from harness import ROOT
from server_harness import ServerTest, demo_job, now_text

EXAMPLE = json.loads((ROOT / "docs/examples/performance-orchard-wash.json").read_text())


def performance_sheet():
    sheet = {key: EXAMPLE[key] for key in ("test", "guarantee", "impeller")}
    sheet["test"] = {key: value for key, value in sheet["test"].items() if key != "points"}
    return sheet


class Logger(ServerTest):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.job = "G-4001"
        gauge = next(i for i in demo_job()["shop"]["instruments"] if i["id"] == "gauge-1")
        set_up = cls.browsers["lead-hand"].hand_in("shop", ("instrument-set", {"instrument": {**gauge, "calibrated": "2026-01-01", "due": "2099-01-01"}}))
        assert set_up.json["refused"] == [], set_up.body
        make_up = demo_job()["make_up"]
        make_up["sheets"] = {**make_up["sheets"], "performance": performance_sheet()}
        opened = cls.open_job(cls.job, by="office", make_up=make_up)
        assert opened.status == 201, opened.body

    def rows(self):
        return self.browsers["read-only"].ask("GET", f"/api/jobs/{self.job}").json["logged_rows"]

    def test_every_point_is_kept_once_and_proves_nothing_until_it_is_sent(self):
        logger = self.browsers["technician"]
        points = EXAMPLE["test"]["points"]
        events = [{**logger.envelope(), "type": "row-logged", "payload": json.dumps({"check": "guarantee", "row": point})} for point in points]
        path = f"/api/jobs/{self.job}/events"
        for event in [*events, *events]:  # all of them again, as after a broken line
            answer = logger.ask("POST", path, {"device": "loop-1", "events": [event]})
            self.assertEqual((answer.status, answer.json["refused"]), (200, []), answer.body)
        self.assertEqual([r["row"] for r in self.rows()], points)
        job = logger.ask("GET", f"/api/jobs/{self.job}").json
        check = next(c for c in job["checks"] if c["id"] == "guarantee")
        self.assertEqual(check["finding"]["verdict"], "not-taken")
        reading = {"event": "reading", "id": "p1", "check": "guarantee", "time": now_text(), "actor": self.PEOPLE["technician"],
                   "instrument": "gauge-1", "sheet": {"test": {"points": [r["row"] for r in self.rows()]}}}
        tried = logger.ask("POST", f"/api/jobs/{self.job}/try", {"payload": json.dumps(reading)})
        self.assertEqual(tried.status, 200, tried.body)
        self.assertEqual(tried.json["verdict"], "pass")
        self.assertIn("grade 2B", [line["name"]["en"] for line in tried.json["lines"]])
        self.assertEqual(sum(circle["ink"] == "found" for circle in tried.json["picture"]["circles"]), 2 * len(points))

    def test_what_is_no_row_of_a_bench_test_is_refused_with_its_field(self):
        logger = self.browsers["technician"]
        for payload, field in (({"check": "shaft-diameter", "row": {"flow": "1 gpm"}}, "check"), ({"check": "guarantee", "row": "39.9 gpm"}, "row"),
                               ({"check": "guarantee", "row": {"flow": "1" * 5000}}, "row"), ({"check": "guarantee", "rows": []}, "rows")):
            with self.subTest(payload=str(payload)[:80]):
                answer = logger.hand_in(self.job, ("row-logged", payload))
                self.assertEqual(answer.json["accepted"], [])
                self.assertEqual(answer.json["refused"][0]["error"]["field"].split("/")[-1], field)

    def test_who_may_only_look_hands_in_nothing(self):
        answer = self.browsers["read-only"].hand_in(self.job, ("row-logged", {"check": "guarantee", "row": {"flow": "1 gpm"}}))
        self.assertEqual(answer.status, 403)


if __name__ == "__main__":
    unittest.main()
