"""Event streams: two tablets on one job see each other at once, and listening costs the others nothing."""

import threading
import unittest

from server_harness import Browser, ServerTest, now_text


class Streams(ServerTest):
    LISTENERS = 60

    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.number = 0

    def setUp(self):
        Streams.number += 1
        self.job = f"S-{Streams.number}"
        self.assertEqual(self.open_job(self.job).status, 201)

    def note(self, text="x", role="technician"):
        answer = self.browsers[role].hand_in(self.job, ("note", {"step": "make-safe", "text": text}))
        self.assertEqual(answer.json["refused"], [])
        return answer.json["seq"]

    def listen(self, path, role="technician", headers=None):
        stream = self.browsers[role].listen(path, headers)
        self.addCleanup(stream.close)
        self.assertEqual(stream.status, 200)
        return stream

    def test_sixty_listeners_hear_everything_while_requests_are_answered(self):
        path = f"/api/jobs/{self.job}/changes"
        streams = [self.listen(path, role=("technician", "office")[i % 2]) for i in range(self.LISTENERS)]
        begun = {stream.message()["id"] for stream in streams}
        self.assertEqual(len(begun), 1)
        first = int(begun.pop())
        seqs = []
        for i in range(10):
            seqs.append(self.note(str(i)))
            self.assertEqual(self.browsers["office"].ask("GET", "/api/jobs").status, 200)
        self.assertEqual(seqs, list(range(first + 1, first + 11)))
        for stream in streams:
            self.assertEqual([int(stream.message()["id"]) for _ in seqs], seqs)

    def test_a_message_says_what_happened(self):
        stream = self.listen(f"/api/jobs/{self.job}/changes")
        stream.message()
        reading = {"event": "reading", "id": "r1", "check": "made-safe", "time": now_text(), "actor": "J.M.", "done": True}
        answer = self.browsers["technician"].hand_in(self.job, ("reading", reading))
        self.assertEqual(answer.json["refused"], [])
        message = stream.message()
        self.assertEqual(message["event"], "change")
        self.assertEqual(message["data"], {"seq": answer.json["seq"], "head": answer.json["head"], "type": "reading", "actor": "J.M.", "check": "made-safe"})

    def test_a_listener_that_comes_back_hears_what_it_missed_once(self):
        stream = self.listen(f"/api/jobs/{self.job}/changes")
        last = stream.message()["id"]
        stream.close()
        seqs = [self.note(str(i)) for i in range(5)]
        again = self.listen(f"/api/jobs/{self.job}/changes", headers={"Last-Event-ID": last})
        self.assertEqual([int(again.message()["id"]) for _ in seqs], seqs)
        after = self.listen(f"/api/jobs/{self.job}/changes?after={seqs[2]}")
        self.assertEqual([int(after.message()["id"]) for _ in range(2)], seqs[3:])

    def test_the_shop_stream_hears_of_every_job(self):
        stream = self.listen("/api/changes", role="read-only")
        self.assertEqual(stream.message()["data"]["stream"], "shop")
        seq = self.note()
        message = stream.message()
        self.assertEqual(message["data"], {"stream": f"job/{self.job}", "seq": seq})
        stream.close()
        seq = self.note()
        again = self.listen("/api/changes", role="read-only", headers={"Last-Event-ID": message["id"]})
        self.assertEqual(again.message()["data"], {"stream": f"job/{self.job}", "seq": seq})

    def test_ids_that_are_none_and_jobs_that_are_not_there(self):
        for path, headers, status in ((f"/api/jobs/{self.job}/changes", {"Last-Event-ID": "x"}, 400), ("/api/jobs/none/changes", {}, 404)):
            stream = self.browsers["office"].listen(path, headers)
            self.assertEqual(stream.status, status)
            stream.close()
        stream = self.browsers["nobody"].listen("/api/changes")
        self.assertEqual(stream.status, 401)
        stream.close()

    def test_signing_out_ends_the_stream(self):
        browser = Browser(self.server)
        self.addCleanup(browser.close)
        browser.sign_in("J.M.")
        stream = browser.listen(f"/api/jobs/{self.job}/changes")
        stream.message()
        self.assertEqual(browser.ask("DELETE", "/api/session").status, 204)
        self.assertIsNone(stream.message())
        stream.close()

    def test_many_writers_and_listeners_lose_and_double_nothing(self):
        writers, each = 6, 8
        streams = [self.listen(f"/api/jobs/{self.job}/changes") for _ in range(8)]
        for stream in streams:
            stream.message()
        browsers = []
        for _ in range(writers):
            browser = Browser(self.server)
            self.addCleanup(browser.close)
            browser.sign_in("J.M.")
            browsers.append(browser)
        accepted, failures = [], []

        def write(browser):
            for i in range(each):
                answer = browser.hand_in(self.job, ("note", {"step": "make-safe", "text": str(i)}))
                if answer.status != 200 or answer.json["refused"]:
                    failures.append(answer.body)
                else:
                    accepted.append(answer.json["accepted"][0]["seq"])

        threads = [threading.Thread(target=write, args=(b,)) for b in browsers]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        self.assertEqual(failures, [])
        self.assertEqual(len(set(accepted)), writers * each)
        for stream in streams:
            self.assertEqual([int(stream.message()["id"]) for _ in accepted], sorted(accepted))


if __name__ == "__main__":
    unittest.main()
