"""Starts the real server on a port of its own and talks to it as browsers do: cookies, request token, event streams."""

import contextlib
import http.client
import json
import os
import re
import resource
import signal
import socket
import ssl
import subprocess
import tempfile
import threading
import time
import unittest
import urllib.parse

from harness import ENVIRONMENT, PROGRAM, ROOT

PASSWORD = "a long enough one"


class Server:
    """One running `pumpwright serve`. Its standard error is read all the time, so that it never waits for a reader."""

    def __init__(self, data, *arguments, listen="127.0.0.1:0", inside=()):
        command = [*inside, PROGRAM, "serve", "--data", str(data), "--listen", listen, *arguments]
        self.process = subprocess.Popen(command, cwd=ROOT, env=ENVIRONMENT, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
                                        restore_signals=False)  # a file that may not grow is an error to it, not a signal
        self.lines = []
        self.news = threading.Condition()
        self.reader = threading.Thread(target=self._read, daemon=True)
        self.reader.start()
        try:
            self.address = self.wait_for(r"^Listening on (\S+)$").group(1)
        except AssertionError:
            self.stop()
            raise
        parts = urllib.parse.urlsplit(self.address)
        self.host, self.port, self.tls = parts.hostname, parts.port, parts.scheme == "https"

    def _read(self):
        for line in self.process.stderr:
            with self.news:
                self.lines.append(line.rstrip("\n"))
                self.news.notify_all()
        with self.news:
            self.lines.append(None)
            self.news.notify_all()

    def wait_for(self, pattern, seconds=120):
        def found():
            return next((m for m in (re.search(pattern, line) for line in self.lines if line is not None) if m), None)

        with self.news:
            self.news.wait_for(lambda: found() or None in self.lines, timeout=seconds)
            match = found()
        if not match:
            raise AssertionError(f"the server did not say {pattern}:\n" + "\n".join(str(line) for line in self.lines))
        return match

    def log(self):
        with self.news:
            return [line for line in self.lines if line is not None]

    def code(self):
        return self.wait_for(r"One-time code for the first lead hand: (\S+)$").group(1)

    def stop(self, sig=signal.SIGINT):
        """The exit status after a signal."""
        if self.process.poll() is None:
            self.process.send_signal(sig)
        status = self.process.wait(timeout=120)
        self.reader.join(timeout=30)
        self.process.stdout.close()
        self.process.stderr.close()
        return status

    def let_files_grow_to(self, size):
        """From now on the server can write no file beyond that many bytes, as on a disk that is full; None: no bound."""
        _, hard = resource.prlimit(self.process.pid, resource.RLIMIT_FSIZE)
        resource.prlimit(self.process.pid, resource.RLIMIT_FSIZE, (hard if size is None else size, hard))

    def connection(self, context=None):
        if self.tls:
            return http.client.HTTPSConnection(self.host, self.port, timeout=120, context=context or ssl._create_unverified_context())
        return http.client.HTTPConnection(self.host, self.port, timeout=120)


class Answer:
    def __init__(self, response):
        self.status = response.status
        self.headers = response.headers
        self.body = response.read()

    @property
    def json(self):
        return json.loads(self.body)

    @property
    def code(self):
        try:
            return self.json["error"]["code"]
        except (ValueError, KeyError, TypeError):
            return None


class Browser:
    """One browser of one person."""

    def __init__(self, server):
        self.server = server
        self.cookies = {}
        self.link = server.connection()
        self.sent = 0
        self.token = ""
        self.learn_token()

    def close(self):
        self.link.close()

    def learn_token(self):
        self.token = self.ask("GET", "/api/session").json["token"]

    def headers(self, more=None):
        headers = {"X-Pumpwright-Token": self.token, "Cookie": "; ".join(f"{n}={v}" for n, v in self.cookies.items()), **(more or {})}
        return {name: value for name, value in headers.items() if value is not None}

    def ask(self, method, path, body=None, headers=None):
        headers = self.headers(headers)
        if isinstance(body, (dict, list)):
            body = json.dumps(body).encode()
            headers.setdefault("Content-Type", "application/json")
        try:
            response = self.response_to(method, path, body, headers)
        except (http.client.RemoteDisconnected, BrokenPipeError, ConnectionResetError):
            response = self.response_to(method, path, body, headers)  # an idle connection the server had closed
        answer = Answer(response)
        for cookie in answer.headers.get_all("Set-Cookie") or []:
            name, value = cookie.split(";")[0].split("=", 1)
            if value:
                self.cookies[name] = value
            else:
                self.cookies.pop(name, None)
        return answer

    def response_to(self, method, path, body, headers):
        try:
            self.link.request(method, path, body=body, headers=headers)
            return self.link.getresponse()
        except OSError:
            self.link.close()
            raise

    def sign_in(self, person, password=PASSWORD):
        answer = self.ask("POST", "/api/session", {"id": person, "password": password})
        self.learn_token()
        return answer

    def envelope(self):
        self.sent += 1
        return {"key": os.urandom(16).hex(), "device_seq": self.sent}

    def hand_in(self, where, *events):
        """Hands in (type, payload) events; where is "shop" or a job's number."""
        path = "/api/shop/events" if where == "shop" else f"/api/jobs/{urllib.parse.quote(where, safe='')}/events"
        listed = [{**self.envelope(), "type": kind, "payload": json.dumps(payload)} for kind, payload in events]
        return self.ask("POST", path, {"device": "tests", "events": listed})

    def listen(self, path, headers=None):
        return Stream(self, path, headers)


class Stream:
    """An event stream, read line by line."""

    def __init__(self, browser, path, headers=None):
        self.link = browser.server.connection()
        self.link.request("GET", path, headers=browser.headers(headers))
        self.response = self.link.getresponse()
        self.status = self.response.status

    def message(self):
        """The next message as a dictionary; None at the end. Comments are passed over."""
        fields = {}
        while True:
            line = self.response.readline().decode()
            if line == "":
                return None
            line = line.rstrip("\n")
            if line == "":
                if fields:
                    return fields
            elif not line.startswith(":"):
                name, value = line.split(": ", 1)
                fields[name] = json.loads(value) if name == "data" else value

    def close(self):
        self.response.close()
        self.link.close()


@contextlib.contextmanager
def raw(server):
    """A bare socket to the server."""
    with socket.create_connection((server.host, server.port), timeout=120) as link:
        if server.tls:
            with ssl._create_unverified_context().wrap_socket(link) as secure:
                yield secure
        else:
            yield link


def all_bytes(link):
    """What comes until the other side closes."""
    got = b""
    with contextlib.suppress(ConnectionResetError):
        while part := link.recv(65536):
            got += part
    return got


def now_text():
    """Now, as events write it."""
    return time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime())


def demo_job(name="greenhouse-circulator"):
    return json.loads((ROOT / "demo" / f"{name}.json").read_text())


class ServerTest(unittest.TestCase):
    """A server with one person of each role; shared by the tests of one class."""

    PEOPLE = {"lead-hand": "R.T.", "technician": "J.M.", "office": "O.F.", "read-only": "V.W."}
    ARGUMENTS = ()
    maxDiff = None

    @classmethod
    def setUpClass(cls):
        cls.directory = tempfile.TemporaryDirectory(prefix="pumpwright-e2e-")
        cls.data = os.path.join(cls.directory.name, "shop")
        cls.server = Server(cls.data, *cls.ARGUMENTS)
        cls.browsers = {"nobody": Browser(cls.server)}
        lead = cls.browsers["lead-hand"] = Browser(cls.server)
        made = lead.ask("POST", "/api/first-person", {"code": cls.server.code(), "id": "R.T.", "name": "Lead hand", "password": PASSWORD})
        assert made.status == 200, made.body
        lead.learn_token()
        named = lead.hand_in("shop", ("shop-named", {"name": "Greenhouse pumps"}))
        assert named.status == 200 and named.json["refused"] == [], named.body
        for role, person in cls.PEOPLE.items():
            if role == "lead-hand":
                continue
            added = lead.ask("POST", "/api/shop/people", {**lead.envelope(), "device": "tests", "id": person, "name": role, "role": role, "password": PASSWORD})
            assert added.status == 201, added.body
            cls.browsers[role] = Browser(cls.server)
            assert cls.browsers[role].sign_in(person).status == 200

    @classmethod
    def tearDownClass(cls):
        for browser in cls.browsers.values():
            browser.close()
        status = cls.server.stop()
        complaints = [line for line in cls.server.log() if "Sanitizer" in line or "runtime error" in line]
        cls.directory.cleanup()
        assert status == 0 and complaints == [], (status, cls.server.log()[-40:])

    @classmethod
    def open_job(cls, number, by="lead-hand", name="greenhouse-circulator", make_up=None):
        """Opens a job with the make-up of a demonstration job, or with another; gives the answer."""
        demo = demo_job(name)
        header = {key: demo["job"][key] for key in ("customer", "pump", "serial", "reason")}
        browser = cls.browsers[by]
        return browser.ask("POST", "/api/jobs", {**browser.envelope(), "device": "tests", "job": {"number": number, **header}, "make_up": make_up or demo["make_up"], "bench": "3"})
