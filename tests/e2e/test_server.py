"""The server as the page meets it: one table of requests against every role, answers held to the published description."""

import gzip
import json
import os
import re
import signal
import tempfile
import unittest
import urllib.parse

import jsonschema

from harness import run
from server_harness import PASSWORD, Browser, Server, ServerTest, demo_job, now_text

ROLES = ("nobody", "read-only", "office", "technician", "lead-hand")

OLD_RECORDS = "job,serial,in\nL-1,GH-0001,2024-03-01\nL-2,GH-0002,soon\n"
OLD_COLUMNS = {"number": "job", "serial": "serial", "came_in": "in"}

# request, the roles that may (the others get 401 or 403), the status they get, what must and what must not appear.
# {job} is an open job. Bodies are made anew for each role.
SCENARIOS = [
    ("GET", "/api/health", None, ROLES, 200, ['"ok":true'], ["password", "shop.sqlite"]),
    ("GET", "/api/openapi.json", None, ROLES, 200, ['"openapi": "3.1.0"'], []),
    ("GET", "/api/session", None, ROLES, 200, ['"token"', '"first_start":false', "Greenhouse pumps"], ["argon2", "public_key"]),
    ("GET", "/api/jobs", None, ROLES[1:], 200, ["{job}", "greenhouse heating loop"], ["argon2"]),
    ("GET", "/api/search?q=greenhouse", None, ROLES[1:], 200, ["{job}"], ["argon2"]),
    ("GET", "/api/search?q=orchard", None, ROLES[1:], 200, ['"jobs":[]'], ["{job}"]),
    ("GET", "/api/search?q=x&limit=0", None, ROLES[1:], 400, ["limit"], ["{job}"]),
    ("GET", "/api/search?q=x&limit=101", None, ROLES[1:], 400, ["limit"], ["{job}"]),
    ("GET", "/api/search?q=%22%29%28*", None, ROLES[1:], 200, ['"jobs":[]'], ["SQL", "fts"]),
    ("GET", "/api/earlier?serial=GH-0043", None, ROLES[1:], 200, ["{job}", '"make_up"'], ["argon2"]),
    ("GET", "/api/make-up-form", None, ROLES[1:], 200, ['"driver"'], []),
    ("GET", "/api/jobs/{job}", None, ROLES[1:], 200, ["{job}"], ["argon2", "wrapped"]),
    ("GET", "/api/jobs/{job}/seal", None, ROLES[1:], 200, ['"in_service"', '"tried":false'], ["argon2"]),
    ("GET", "/api/jobs/{job}/seal?temperature=95%20degC", None, ROLES[1:], 200, ['"tried":true'], []),
    ("GET", "/api/jobs/{job}/seal?suction=12%20furlongs", None, ROLES[1:], 422, ['"field":"suction"'], ["in_service"]),
    ("GET", "/api/jobs/{job}/true-running", None, ROLES[1:], 200, ['"rotating"', '"standing"'], ["argon2"]),
    ("GET", "/api/jobs/none/true-running", None, ROLES[1:], 404, ["not-found"], ["sqlite"]),
    ("GET", "/api/jobs/none/seal", None, ROLES[1:], 404, ["not-found"], ["sqlite"]),
    ("GET", "/api/jobs/{job}/cause", None, ROLES[1:], 200, ['"parts"', '"heat-checks"', '"cause":null'], ["argon2"]),
    ("GET", "/api/jobs/{job}/letter.pdf", None, ROLES[1:], 404, ["not-found"], ["%PDF-"]),
    ("GET", "/api/jobs/{job}/letter.pdf?paper=a3", None, ROLES[1:], 400, ["paper"], ["%PDF-"]),
    ("GET", "/api/jobs/{job}/past", None, ROLES[1:], 200, ['"builds":[]', '"readings":[]'], ["argon2"]),
    ("GET", "/api/lives.csv", None, ROLES[1:], 200, ["pump,job,group,customer,seal,out,time,event,impeller_sweep_um"], ["argon2", "J.M."]),
    ("GET", "/api/returns", None, ROLES[1:], 200, ['"builds":', '"choices"'], ["argon2", "J.M."]),
    ("GET", "/api/returns?by=technician", None, ROLES[1:], 422, ['"field":"by"'], ["choices"]),
    ("GET", "/api/returns?by=pump&changed=2026-01-01", None, ROLES[1:], 422, ['"field":"by"'], ["choices"]),
    ("GET", "/api/returns?changed=yesterday", None, ROLES[1:], 422, ['"field":"changed"'], ["choices"]),
    ("GET", "/api/returns?reading=hours-slept", None, ROLES[1:], 422, ['"field":"reading"'], ["choices"]),
    ("GET", "/api/jobs/{job}/readings.qif", None, ROLES[1:], 200, ["QIFDocument", "{job}"], ["argon2"]),
    ("GET", "/api/jobs/none/readings.qif", None, ROLES[1:], 404, ["not-found"], ["sqlite"]),
    ("POST", "/api/shop/old-jobs/look", "old header", ROLES[4:], 200, ['"header":["job","serial","in"]', '"table":null'], []),
    ("POST", "/api/shop/old-jobs/look", "old columns", ROLES[4:], 200, ['"fit":1', '"wrong_count":1', "line 3"], []),
    ("POST", "/api/shop/old-jobs", "old header", ROLES[4:], 422, ["device"], ["taken"]),
    ("POST", "/api/shop/old-jobs", "old take", ROLES[4:], 200, ['"wrong_count":1'], []),
    ("GET", "/api/jobs/{job}/readings.csv", None, ROLES[1:], 200, ["job,serial,step,check", "vapour-margin"], ["argon2"]),
    ("GET", "/api/jobs/none/readings.csv", None, ROLES[1:], 404, ["not-found"], ["sqlite"]),
    ("GET", "/api/jobs/none/past", None, ROLES[1:], 404, ["not-found"], ["sqlite"]),
    ("GET", "/api/jobs/none/cause", None, ROLES[1:], 404, ["not-found"], ["sqlite"]),
    ("POST", "/api/jobs/{job}/cause", "strip", ROLES[3:], 200, ['"told":true', "assembly"], []),
    ("POST", "/api/jobs/{job}/cause", "strip-wrong", ROLES[3:], 422, ["bad-input", "found/0"], ["told"]),
    ("GET", "/api/jobs/{job}/seal-map", None, ROLES[1:], 200, ['"map"'], []),
    ("GET", "/api/jobs/{job}/seal-map?speed=0%20rpm", None, ROLES[1:], 422, ['"field":"speed"'], []),
    ("GET", "/api/jobs/{job}/spectrum?unit=g&full_scale=1&recording=" + "0" * 64, None, ROLES[1:], 404, ["not-found"], ["lines"]),
    ("GET", "/api/jobs/none/spectrum", None, ROLES[1:], 404, ["not-found"], ["sqlite"]),
    ("GET", "/api/jobs/none", None, ROLES[1:], 404, ["not-found"], ["sqlite"]),
    ("GET", "/api/jobs/{job}/record.json", None, ROLES[1:], 200, ["{job}"], ["argon2", "wrapped"]),
    ("GET", "/api/jobs/{job}/record.pdf", None, ROLES[1:], 200, ["%PDF-"], []),
    ("GET", "/api/jobs/{job}/record.pdf?paper=a3", None, ROLES[1:], 400, ["paper"], ["%PDF-"]),
    ("GET", "/api/jobs/{job}/record.pdf?language=de", None, ROLES[1:], 400, ["language"], ["%PDF-"]),
    ("GET", "/api/jobs/{job}/tag.svg", None, ROLES[1:], 200, ["<svg", "{job}"], ["<script"]),
    ("GET", "/api/jobs/{job}/drawings/section.svg", None, ROLES[1:], 200, ["<svg"], ["<script"]),
    ("GET", "/api/jobs/{job}/drawings/nothing.svg", None, ROLES[1:], 404, ["not-found"], ["<svg"]),
    ("GET", "/api/attachments/" + "0" * 64, None, ROLES[1:], 404, ["not-found"], []),
    ("GET", "/api/attachments/x", None, ROLES[1:], 404, ["not-found"], []),
    ("GET", "/api/shop", None, ROLES[1:], 200, ["Greenhouse pumps"], ["argon2", "wrapped"]),
    ("POST", "/api/plan-preview", "make_up", ROLES[2:], 200, ['"steps"'], []),
    ("POST", "/api/jobs/{job}/try", "reading", ROLES[3:], 200, ["pass"], []),
    ("POST", "/api/jobs/{job}/try", "nonsense", ROLES[3:], 422, ["bad-input"], []),
    ("POST", "/api/jobs/{job}/events", "note", ROLES[3:], 200, ['"refused":[]'], []),
    ("POST", "/api/jobs/none/events", "note", ROLES[3:], 404, ["not-found"], []),
    ("POST", "/api/jobs/{job}/sign", "sign", ROLES[4:], 409, ["conflict"], []),
    ("POST", "/api/shop/events", "step text", ROLES[4:], 200, ['"refused":[]'], []),
    ("POST", "/api/shop/people", "known person", ROLES[4:], 409, ["conflict"], ["argon2"]),
    ("DELETE", "/api/nothing", None, ROLES, 404, ["not-found"], []),
    ("GET", "/shop-certificate.crt", None, ROLES, 404, ["not-found"], ["BEGIN"]),
]


class Scenarios(ServerTest):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.job = "G-17.b_c"
        opened = cls.open_job(cls.job, by="office")
        assert opened.status == 201 and opened.json == {"number": cls.job}, opened.body
        cls.document = cls.browsers["nobody"].ask("GET", "/api/openapi.json").json

    def body(self, name, browser):
        device = {"device": "tests"}
        event = {**browser.envelope()}
        reading = {"event": "reading", "id": "try", "check": "made-safe", "time": now_text(), "actor": self.person_of(browser), "done": True}
        return {
            None: None,
            "make_up": {"make_up": demo_job()["make_up"]},
            "reading": {"payload": json.dumps(reading)},
            "nonsense": {"payload": json.dumps({**reading, "check": "no such check"})},
            "strip": {"sheet": {"found": ["elastomer-cut", "leaks-at-once"]}},
            "strip-wrong": {"sheet": {"found": ["No word"]}},
            "old header": {"file": "ledger.csv", "csv": OLD_RECORDS},
            "old columns": {"file": "ledger.csv", "csv": OLD_RECORDS, "columns": OLD_COLUMNS},
            "old take": {**device, **event, "file": "ledger.csv", "csv": OLD_RECORDS, "columns": OLD_COLUMNS, "name": "ledger"},
            "note": {**device, "events": [{**event, "type": "note", "payload": json.dumps({"step": "make-safe", "text": "tag 14"})}]},
            "sign": {**device, **event, "password": PASSWORD, "statement": "ready"},
            "step text": {**device, "events": [{**event, "type": "shop-named", "payload": json.dumps({"name": "Greenhouse pumps"})}]},
            "known person": {**device, **event, "id": "R.T.", "name": "again", "role": "office", "password": PASSWORD},
        }[name]

    def person_of(self, browser):
        return next((person for role, person in self.PEOPLE.items() if self.browsers[role] is browser), "nobody")

    def path(self, pattern):
        return pattern.replace("{job}", urllib.parse.quote(self.job, safe=""))

    def test_every_row_of_the_table_for_every_role(self):
        for method, pattern, body, roles, status, there, not_there in SCENARIOS:
            for role in ROLES:
                with self.subTest(method=method, path=pattern, body=body, role=role):
                    browser = self.browsers[role]
                    answer = browser.ask(method, self.path(pattern), self.body(body, browser))
                    text = answer.body.decode("utf-8", "replace")
                    if role not in roles:
                        self.assertEqual(answer.status, 401 if role == "nobody" else 403, text)
                        self.assertEqual(answer.code, "not-signed-in" if role == "nobody" else "not-allowed")
                        self.assertNotIn(self.job, text)
                        continue
                    self.assertEqual(answer.status, status, text[:2000])
                    for part in there:
                        self.assertIn(part.replace("{job}", self.job), text)
                    for part in not_there:
                        self.assertNotIn(part.replace("{job}", self.job), text)

    def test_json_answers_are_what_the_description_says(self):
        seen = 0
        for method, pattern, body, roles, status, _, _ in SCENARIOS:
            described = self.described(method, pattern.split("?")[0])
            if described is None:
                continue
            for role in ("nobody", roles[-1]):
                browser = self.browsers[role]
                answer = browser.ask(method, self.path(pattern), self.body(body, browser))
                response = described["responses"].get(str(answer.status)) or described["responses"].get("default")
                with self.subTest(method=method, path=pattern, status=answer.status):
                    self.assertIsNotNone(response, "a status the description does not have")
                    schema = self.resolved(response).get("content", {}).get("application/json", {}).get("schema")
                    if schema is None:
                        self.assertNotIn("application/json", answer.headers["Content-Type"])
                        continue
                    self.assertEqual(answer.headers["Content-Type"], "application/json; charset=utf-8")
                    jsonschema.Draft202012Validator({**schema, "components": self.document["components"]}).validate(answer.json)
                    seen += 1
        self.assertGreater(seen, 30)

    def described(self, method, path):
        for pattern, item in self.document["paths"].items():
            if re.fullmatch(re.sub(r"\\\{[a-z]+\\\}", "[^/]+", re.escape(pattern)), path):
                return item.get(method.lower())
        return None

    def resolved(self, value):
        while "$ref" in value:
            found = self.document
            for part in value["$ref"][2:].split("/"):
                found = found[part]
            value = found
        return value

    def test_the_description_itself_is_sound(self):
        for name, schema in self.document["components"]["schemas"].items():
            with self.subTest(schema=name):
                jsonschema.Draft202012Validator.check_schema(schema)

    def test_every_answer_carries_the_headers_that_protect(self):
        for path in ("/", "/jobs/x", "/none.js", "/api/health", "/api/jobs", "/api/jobs/none"):
            headers = self.browsers["office"].ask("GET", path).headers
            with self.subTest(path=path):
                self.assertIn("default-src 'self'", headers["Content-Security-Policy"])
                self.assertIn("frame-ancestors 'none'", headers["Content-Security-Policy"])
                self.assertEqual(headers["X-Content-Type-Options"], "nosniff")
                self.assertEqual(headers["Referrer-Policy"], "no-referrer")
                self.assertEqual(headers["Cross-Origin-Opener-Policy"], "same-origin")
                self.assertEqual(headers["Cross-Origin-Resource-Policy"], "same-origin")
                self.assertIsNone(headers["Strict-Transport-Security"])
                self.assertIsNone(headers["Access-Control-Allow-Origin"])
                self.assertIsNone(headers["Server"])
                self.assertEqual(headers["Cache-Control"] == "no-store", path.startswith("/api"))

    def test_long_answers_are_compressed_for_who_takes_it_except_beside_a_secret(self):
        browser = self.browsers["office"]

        def asked(path, accepts):
            return browser.ask("GET", self.path(path), headers={"Accept-Encoding": accepts})

        for path in ("/api/jobs/{job}", "/api/jobs/{job}/record.json", "/api/jobs/{job}/drawings/section.svg", "/api/openapi.json"):
            with self.subTest(path=path):
                plain, small = asked(path, None), asked(path, "gzip, deflate, br")
                self.assertIsNone(plain.headers["Content-Encoding"])
                self.assertEqual(small.headers["Content-Encoding"], "gzip")
                self.assertEqual(plain.headers["Vary"], "Accept-Encoding")
                self.assertEqual(small.headers["Vary"], "Accept-Encoding")
                self.assertEqual(int(small.headers["Content-Length"]), len(small.body))
                self.assertLess(len(small.body) * 3, len(plain.body))
                self.assertEqual(len(gzip.decompress(small.body)), len(plain.body))
                self.assertIsNone(asked(path, "gzip;q=0, identity").headers["Content-Encoding"])
        self.assertEqual(gzip.decompress(asked("/api/openapi.json", "gzip").body), asked("/api/openapi.json", None).body)
        for path in ("/api/session", "/api/health", "/api/jobs/{job}/record.pdf"):
            with self.subTest(path=path):
                self.assertIsNone(asked(path, "gzip").headers["Content-Encoding"])

    def test_one_refused_event_does_not_stop_the_others(self):
        browser = self.browsers["technician"]
        note = ("note", {"step": "make-safe", "text": "one"})
        answer = browser.hand_in(self.job, note, ("reading", {"event": "reading", "check": "no such check"}), note)
        self.assertEqual((len(answer.json["accepted"]), len(answer.json["refused"])), (2, 1))
        self.assertEqual(answer.json["refused"][0]["error"]["code"], "bad-input")
        self.assertEqual(answer.json["accepted"][1]["seq"], answer.json["seq"])
        self.assertEqual(answer.json["accepted"][1]["hash"], answer.json["head"])

    def test_the_same_key_again_is_no_second_event(self):
        browser = self.browsers["technician"]
        event = {**browser.envelope(), "type": "note", "payload": json.dumps({"step": "make-safe", "text": "once"})}
        path, body = self.path("/api/jobs/{job}/events"), {"device": "tests", "events": [event]}
        first, again = browser.ask("POST", path, body).json, browser.ask("POST", path, body).json
        self.assertEqual(first, again)
        self.assertEqual(len(first["accepted"]), 1)

    def test_a_technician_may_not_hand_in_what_only_a_lead_hand_answers_for(self):
        answer = self.browsers["technician"].hand_in(
            self.job, ("deviation-accepted", {"event": "deviation-accepted", "check": "made-safe", "reason": "x", "time": now_text(), "actor": "J.M."}))
        self.assertEqual(answer.json["accepted"], [])
        self.assertEqual(answer.json["refused"][0]["error"]["code"], "not-allowed")

    def test_photos_come_back_as_they_were_and_run_nothing(self):
        browser = self.browsers["technician"]
        png = b"\x89PNG\r\n\x1a\n" + os.urandom(300_000)
        path = self.path("/api/jobs/{job}/attachments")
        stored = browser.ask("POST", path, png, {"Content-Type": "image/png"})
        self.assertEqual(stored.status, 201, stored.body)
        got = self.browsers["read-only"].ask("GET", "/api/attachments/" + stored.json["hash"])
        self.assertEqual(got.body, png)
        self.assertEqual(got.headers["Content-Type"], "image/png")
        self.assertEqual(got.headers["Content-Disposition"], "inline")
        self.assertEqual(got.headers["Content-Security-Policy"], "default-src 'none'; sandbox")
        for kind, bytes_, status in (("image/png", b"<html>", 400), ("image/jpeg", png, 400), ("text/html", b"<html>", 415),
                                     ("image/svg+xml", b"<svg/>", 415), (None, png, 415)):
            with self.subTest(kind=kind):
                self.assertEqual(browser.ask("POST", path, bytes_, {"Content-Type": kind}).status, status)
        self.assertEqual(browser.ask("POST", "/api/jobs/none/attachments", png, {"Content-Type": "image/png"}).status, 404)

    def test_the_page_has_its_places(self):
        for path in ("/", "/jobs/anything", "/shop"):
            answer = self.browsers["nobody"].ask("GET", path)
            self.assertIn("text/html", answer.headers["Content-Type"])
        self.assertEqual(self.browsers["nobody"].ask("GET", "/nothing.js").status, 404)

    def test_head_has_the_headers_of_get_and_no_body(self):
        get, head = (self.browsers["nobody"].ask(m, "/api/health") for m in ("GET", "HEAD"))
        self.assertEqual(head.body, b"")
        self.assertEqual(head.headers["Content-Length"], get.headers["Content-Length"])


class SignedIn(ServerTest):
    """Cookies, tokens, origins, passwords."""

    def test_cookies_are_out_of_reach_of_scripts_and_other_sites(self):
        browser = Browser(self.server)
        self.addCleanup(browser.close)
        answer = browser.ask("POST", "/api/session", {"id": "J.M.", "password": PASSWORD})
        cookie = next(c for c in answer.headers.get_all("Set-Cookie") if c.startswith("pumpwright_session="))
        for flag in ("HttpOnly", "SameSite=Strict", "Path=/"):
            self.assertIn(flag, cookie)
        self.assertNotIn("Secure", cookie)
        self.assertNotIn("Domain", cookie)

    def test_a_request_that_changes_something_needs_token_and_own_origin(self):
        browser = self.browsers["lead-hand"]
        own = f"http://{self.server.host}:{self.server.port}"
        body = {"device": "tests", "events": []}
        for headers, status in (({}, 200), ({"Origin": own}, 200), ({"X-Pumpwright-Token": None}, 403), ({"X-Pumpwright-Token": "x"}, 403),
                                ({"X-Pumpwright-Token": self.browsers["technician"].token}, 403), ({"Origin": "http://evil.example"}, 403),
                                ({"Origin": "null"}, 403), ({"Origin": own + "0"}, 403), ({"Sec-Fetch-Site": "cross-site"}, 403)):
            with self.subTest(headers=headers):
                self.assertEqual(browser.ask("POST", "/api/shop/events", body, headers).status, status)

    def test_another_host_name_is_not_answered(self):
        for host, status in (("evil.example", 421), (f"evil.example:{self.server.port}", 421), ("localhost", 200),
                             (f"[::1]:{self.server.port}", 200)):
            with self.subTest(host=host):
                self.assertEqual(self.browsers["nobody"].ask("GET", "/api/health", headers={"Host": host}).status, status)

    def test_unknown_names_and_wrong_passwords_get_the_same_answer(self):
        browser = Browser(self.server)
        self.addCleanup(browser.close)
        wrong = browser.ask("POST", "/api/session", {"id": "O.F.", "password": "wrong wrong wrong"})
        unknown = browser.ask("POST", "/api/session", {"id": "X.X.", "password": "wrong wrong wrong"})
        self.assertEqual((wrong.status, wrong.body), (unknown.status, unknown.body))
        self.assertEqual(wrong.status, 401)
        browser.sign_in("O.F.")

    def test_nothing_secret_is_in_the_log(self):
        secrets = [PASSWORD, *(b.token for b in self.browsers.values()), *(v for b in self.browsers.values() for v in b.cookies.values())]
        self.browsers["office"].ask("GET", "/api/search?q=confidential")
        self.server.wait_for(r" O\.F\. GET /api/search 200 ")
        log = "\n".join(self.server.log())
        for secret in [*secrets, "confidential"]:
            self.assertNotIn(secret, log)


class Restart(unittest.TestCase):
    """What lasts longer than one run of the server."""

    def setUp(self):
        directory = tempfile.TemporaryDirectory(prefix="pumpwright-e2e-")
        self.addCleanup(directory.cleanup)
        self.data = os.path.join(directory.name, "shop")

    def start(self, *arguments):
        server = Server(self.data, *arguments)
        self.addCleanup(server.stop)
        return server

    def test_sessions_data_and_throttling_survive_and_the_code_does_not_come_back(self):
        server = self.start()
        browser = Browser(server)
        browser.ask("POST", "/api/first-person", {"code": server.code(), "id": "R.T.", "name": "Lead hand", "password": PASSWORD})
        browser.learn_token()
        stranger = Browser(server)
        tries = [stranger.ask("POST", "/api/session", {"id": "R.T.", "password": f"guess number {i}"}) for i in range(8)]
        self.assertEqual({t.status for t in tries[:5]}, {401})
        self.assertIn(429, {t.status for t in tries[5:]})
        waiting = next(t for t in tries if t.status == 429)
        self.assertGreaterEqual(int(waiting.headers["Retry-After"]), 1)
        self.assertEqual(waiting.code, "too-many")
        browser.close(), stranger.close()
        self.assertEqual(server.stop(signal.SIGTERM), 0)

        again = self.start()
        browser.server, browser.link = again, again.connection()
        self.assertEqual(browser.ask("GET", "/api/session").json["person"]["id"], "R.T.")
        self.assertEqual(browser.hand_in("shop", ("shop-named", {"name": "Kept"})).status, 200)  # the token, too
        self.assertFalse(any("One-time code" in line for line in again.log()))
        browser.close()

    def test_a_demonstration_shop_is_served_to_this_machine_alone_unless_told_otherwise(self):
        made = run("demo", "--data", self.data, "--jobs", "demo")
        self.assertEqual(made.returncode, 0, made.stderr)
        for listen in ("0.0.0.0:0", "[::]:0"):
            for more in ((), ("--tls",)):
                refused = run("serve", "--data", self.data, "--listen", listen, *more)
                self.assertEqual(refused.returncode, 2, refused.stderr)
                self.assertIn("public passwords", refused.stderr)
                self.assertIn("--public-passwords", refused.stderr)
                self.assertNotIn("Listening", refused.stderr)
        self.assertEqual(self.start().stop(), 0)
        open_to_all = Server(self.data, "--public-passwords", listen="0.0.0.0:0")
        self.addCleanup(open_to_all.stop)
        open_to_all.wait_for("WARNING: reachable from the network without encryption")

    def test_a_second_server_on_the_same_data_is_refused(self):
        self.start()
        with self.assertRaisesRegex(AssertionError, "no other server"):
            Server(self.data)

    def test_ctrl_c_ends_cleanly_with_listeners_and_idle_connections_open(self):
        server = self.start("--quiet")
        browser = Browser(server)
        browser.ask("POST", "/api/first-person", {"code": server.code(), "id": "R.T.", "name": "Lead hand", "password": PASSWORD})
        browser.learn_token()
        streams = [browser.listen("/api/changes") for _ in range(5)]
        for stream in streams:
            self.assertEqual(stream.message()["event"], "change")
        self.assertEqual(server.stop(signal.SIGINT), 0)
        for stream in streams:
            self.assertIsNone(stream.message())
            stream.close()
        browser.close()
        log = server.log()
        self.assertEqual(log[-1], "Stopped.")
        self.assertFalse(any(" GET " in line for line in log), "quiet means no line for a request")
        self.assertFalse(os.path.exists(os.path.join(self.data, "shop.sqlite-wal")) and os.path.getsize(os.path.join(self.data, "shop.sqlite-wal")) > 0)


if __name__ == "__main__":
    unittest.main()
