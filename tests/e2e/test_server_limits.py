"""Requests that are broken, too large, too slow or too many: each is refused, and the server goes on."""

import json
import os
import time
import unittest

from server_harness import Browser, ServerTest, all_bytes, raw


class Limits(ServerTest):
    def tearDown(self):
        self.assertEqual(self.browsers["nobody"].ask("GET", "/api/health").status, 200)

    def said_to(self, text):
        """Sends bytes on a connection of their own; gives status (None: hung up) and everything that came."""
        with raw(self.server) as link:
            link.sendall(text)
            got = all_bytes(link)
        return (int(got.split(b" ", 2)[1]) if got.startswith(b"HTTP/1.1 ") else None), got

    def head(self, line, *headers):
        return "\r\n".join([line, "Host: localhost", "Connection: close", *headers, "", ""]).encode()

    def test_heads_that_break_the_rules(self):
        long = "x" * 20_000
        for text, statuses in (
            (self.head("GET /api/health HTTP/1.1"), {200}),
            (b"GET /api/health HTTP/1.0\r\nHost: localhost\r\n\r\n", {200}),
            (b"nonsense\r\n\r\n", {400}),
            (b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03", {400}),
            (b"GET /api/health HTTP/1.1\r\nConnection: close\r\n\r\n", {400}),
            (b"GET /api/health HTTP/1.1\r\nHost: localhost\r\nHost: evil.example\r\nConnection: close\r\n\r\n", {400}),
            (b"GET http://localhost/api/health HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n", {400}),
            (self.head("GET /api/health HTTP/1.1", "Bad Header: x"), {400}),
            (self.head("GET /api/health HTTP/9.9"), {400}),
            (self.head(f"GET /{long} HTTP/1.1"), {400, 431}),
            (self.head("GET /api/health HTTP/1.1", f"X-Long: {long}"), {431}),
            (self.head("GET /api/health HTTP/1.1", *(f"X-{i}: y" for i in range(3000))), {431}),
            (self.head("PATCH /api/jobs HTTP/1.1"), {405}),
            (self.head("CONNECT evil.example:80 HTTP/1.1"), {400}),
            (self.head("TRACE / HTTP/1.1"), {405}),
        ):
            with self.subTest(text=text[:60]):
                status, got = self.said_to(text)
                self.assertIn(status, statuses, got[:300])

    def test_paths_that_climb_or_lie(self):
        for path in ("/../../etc/passwd", "/..%2f..%2fetc/passwd.txt", "/%2e%2e/%2e%2e/etc/passwd", "/assets/..%5c..%5cshop.sqlite",
                     "/api/%00", "/%ff.js", "/shop.sqlite", "/assets/../shop.key"):
            with self.subTest(path=path):
                status, got = self.said_to(self.head(f"GET {path} HTTP/1.1"))
                self.assertIn(status, (400, 404))
                self.assertNotIn(b"root:", got)
                self.assertNotIn(b"SQLite", got)

    def test_lengths_that_lie(self):
        for headers, statuses in (
            (["Content-Length: -1"], {400}),
            (["Content-Length: 1e3"], {400}),
            (["Content-Length: 99999999999999999999999"], {400}),
            (["Content-Length: 3", "Content-Length: 4"], {400}),
            (["Transfer-Encoding: chunked"], {411}),
            (["Transfer-Encoding: chunked", "Content-Length: 3"], {400, 411}),
            (["Transfer-Encoding: gzip"], {400, 411}),
            ([f"Content-Length: {1 << 40}"], {413}),
            ([f"Content-Length: {13 << 20}"], {413}),
        ):
            with self.subTest(headers=headers):
                status, got = self.said_to(self.head("POST /api/session HTTP/1.1", "Content-Type: application/json", *headers) + b"0\r\n\r\n")
                self.assertIn(status, statuses, got[:300])

    def test_bodies_larger_than_their_row_allows(self):
        lead, nobody = self.browsers["lead-hand"], self.browsers["nobody"]
        for browser, path, size, status in ((nobody, "/api/session", 17 << 10, 413), (nobody, "/api/session", 11 << 20, 413),
                                            (lead, "/api/shop/events", (1 << 20) + 1, 413), (lead, "/api/jobs/x/sign", 2 << 20, 413)):
            with self.subTest(path=path, size=size):
                answer = browser.ask("POST", path, b"x" * size, {"Content-Type": "application/json"})
                self.assertEqual((answer.status, answer.code), (status, "too-large"))
        body = json.dumps({"device": "tests", "events": [], "x": "y" * ((1 << 20) - 100)}).encode()
        self.assertEqual(lead.ask("POST", "/api/shop/events", body, {"Content-Type": "application/json"}).status, 422)

    def test_a_large_body_is_not_read_from_somebody_who_is_not_signed_in(self):
        answer = self.browsers["nobody"].ask("POST", "/api/jobs/x/attachments", b"x" * (8 << 20), {"Content-Type": "image/png"})
        self.assertEqual(answer.status, 401)

    def test_the_largest_attachment_and_one_byte_more(self):
        self.assertEqual(self.open_job("large").status, 201)
        technician = self.browsers["technician"]
        largest = b"\x89PNG\r\n\x1a\n" + os.urandom((12 << 20) - 8)
        stored = technician.ask("POST", "/api/jobs/large/attachments", largest, {"Content-Type": "image/png"})
        self.assertEqual(stored.status, 201, stored.body)
        self.assertEqual(technician.ask("GET", "/api/attachments/" + stored.json["hash"]).body, largest)
        self.assertEqual(technician.ask("POST", "/api/jobs/large/attachments", largest + b"x", {"Content-Type": "image/png"}).status, 413)

    def test_json_that_is_none_or_too_much(self):
        lead = self.browsers["lead-hand"]
        for body, status in ((b"", 400), (b"{", 400), (b"[]", 400), (b'{"device":"a","device":"b","events":[]}', 400), (b"{} {}", 400),
                             (b'{"device":NaN}', 400), (b"[" * 100_000, 400), (b"\xff\xfe", 400), (b'{"device":"tests"}', 422),
                             (b'{"device":7,"events":[]}', 422), (b'{"device":"tests","events":{}}', 422),
                             (json.dumps({"device": "tests", "events": [{**lead.envelope(), "type": "x", "payload": "{}"}] * 201}).encode(), 422)):
            with self.subTest(body=body[:40]):
                answer = lead.ask("POST", "/api/shop/events", body, {"Content-Type": "application/json"})
                self.assertEqual((answer.status, answer.code), (status, "bad-input"), answer.body[:300])

    def test_pipelined_requests_are_answered_in_order(self):
        one = b"GET /api/health HTTP/1.1\r\nHost: localhost\r\n\r\n"
        two = b"GET /api/nothing HTTP/1.1\r\nHost: localhost\r\n\r\n"
        last = b"GET /api/health HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n"
        with raw(self.server) as link:
            link.sendall(one + two + last)
            got = all_bytes(link)
        statuses = [int(part[:3]) for part in got.decode().split("HTTP/1.1 ")[1:]]
        self.assertEqual(statuses, [200, 404, 200])

    def test_a_body_can_wait_to_be_invited(self):
        browser = Browser(self.server)
        self.addCleanup(browser.close)
        body = json.dumps({"id": "X.X.", "password": "x" * 12}).encode()
        head = self.head("POST /api/session HTTP/1.1", "Content-Type: application/json", f"Content-Length: {len(body)}", "Expect: 100-continue",
                         *(f"{n}: {v}" for n, v in browser.headers().items()))
        with raw(self.server) as link:
            link.sendall(head)
            self.assertTrue(link.recv(1000).startswith(b"HTTP/1.1 100 Continue\r\n\r\n"))
            link.sendall(body)
            self.assertTrue(all_bytes(link).startswith(b"HTTP/1.1 401 "))

    def test_heads_that_never_end_are_hung_up_on_while_others_are_served(self):
        began = time.monotonic()
        links = []
        for _ in range(40):
            context = raw(self.server)
            link = context.__enter__()
            self.addCleanup(context.__exit__, None, None, None)
            link.sendall(b"GET /api/health HTTP/1.1\r\nHost: localhost\r\nX-Slow: ")
            links.append(link)
        answered = 0
        hung_up = False
        while not hung_up and time.monotonic() - began < 100:
            self.assertEqual(self.browsers["office"].ask("GET", "/api/jobs").status, 200)
            answered += 1
            try:
                links[0].sendall(b"x")  # a byte now and then does not buy more time
                links[0].settimeout(0.2)
                hung_up = links[0].recv(100) == b""
            except TimeoutError:
                continue
            except OSError:
                hung_up = True
        self.assertTrue(hung_up)
        self.assertGreater(answered, 0)
        for link in links[1:]:
            link.settimeout(60)
            self.assertEqual(all_bytes(link), b"")


class PhotoRoom(ServerTest):
    ARGUMENTS = ("--photo-room", "1")

    def test_room_for_photos_that_is_used_up(self):
        self.assertEqual(self.open_job("full").status, 201)
        technician = self.browsers["technician"]
        photos = [b"\x89PNG\r\n\x1a\n" + os.urandom(600_000) for _ in range(2)]
        first, second, again = (technician.ask("POST", "/api/jobs/full/attachments", photo, {"Content-Type": "image/png"})
                                for photo in (*photos, photos[0]))
        self.assertEqual(first.status, 201, first.body)
        # A refusal for good and not a full disk, for which the tablet would wait with everything that follows.
        self.assertEqual((second.status, second.code), (413, "too-large"), second.body)
        for language in ("en", "es"):
            self.assertIn("--photo-room", second.json["error"]["text"][language])
        self.assertEqual((again.status, again.json), (201, first.json))  # what is there already needs no room
        noted = technician.hand_in("full", ("note", {"step": "end-float", "text": "readings and notes go on"}))
        self.assertEqual((noted.status, noted.json["refused"]), (200, []))


if __name__ == "__main__":
    unittest.main()
