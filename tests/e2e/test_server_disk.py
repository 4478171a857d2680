"""The server on a disk that is full or can only be read: said by its name, nothing half-written, and what is handed in
again under its key once there is room is there exactly once.

A disk is made full in two ways: a bound on the size of the server's files, which needs no permission, and a small file
system of its own in a mount namespace, where the system allows that. A disk that becomes read-only under a running
server is in tests/unit/server/store_trouble_test.cpp: no system lets a test do that to a disk in use.
"""

import json
import os
import shutil
import signal
import sqlite3
import subprocess
import tempfile
import unittest
from pathlib import Path

from harness import run
from server_harness import PASSWORD, Browser, Server, demo_job

# A mount namespace of one's own; `$0` is the directory.
OWN_DISK = 'mount -t tmpfs -o size=4m,mode=0700 none "$0" && exec "$@"'
READ_ONLY = 'mount --bind "$0" "$0" && mount -o remount,bind,ro,nosuid,nodev "$0" && exec "$@"'


def in_namespace(script, directory):
    return ["unshare", "--user", "--map-root-user", "--mount", "sh", "-c", script, str(directory)]


class BadDisk(unittest.TestCase):
    def setUp(self):
        self.directory = Path(tempfile.mkdtemp(prefix="pumpwright-e2e-"))
        self.addCleanup(shutil.rmtree, self.directory)

    def want_namespace(self, script):
        probe = self.directory / "probe"
        probe.mkdir()
        tried = subprocess.run([*in_namespace(script, probe), "true"], capture_output=True, check=False)
        if tried.returncode != 0:
            self.skipTest("mounting is not allowed here: " + tried.stderr.decode().strip())

    def start(self, data, inside=()):
        server = Server(data, inside=inside)
        self.addCleanup(server.stop)
        browser = Browser(server)
        self.addCleanup(browser.close)
        return server, browser

    def with_one_job(self, server, browser):
        made = browser.ask("POST", "/api/first-person", {"code": server.code(), "id": "R.T.", "name": "Lead hand", "password": PASSWORD})
        self.assertEqual(made.status, 200, made.body)
        browser.learn_token()
        demo = demo_job()
        header = {key: demo["job"][key] for key in ("customer", "pump", "serial", "reason")}
        opened = browser.ask("POST", "/api/jobs", {**browser.envelope(), "device": "tests", "job": {"number": "D-1", **header}, "make_up": demo["make_up"]})
        self.assertEqual(opened.status, 201, opened.body)

    def notes(self, browser, count, name):
        return {"device": "tests", "events": [{**browser.envelope(), "type": "note", "payload": json.dumps({"step": "make-safe", "text": f"{name} {i} " + "n" * 2000})}
                                              for i in range(count)]}

    def told_full(self, answer):
        self.assertEqual((answer.status, answer.code), (507, "disk-full"), answer.body)
        text = answer.json["error"]["text"]
        self.assertRegex(text["en"], "disk is full")
        self.assertRegex(text["es"], "disco .* está lleno")

    def full_disk(self, server, browser, make_full, make_room):
        """The same for every kind of full disk; `make_full` may be called with different amounts of room left."""
        before = browser.ask("GET", "/api/jobs/D-1").json["seq"]
        body = self.notes(browser, 60, "kept on the tablet")
        for room in (0, 700, 5000, 40_000):
            make_full(room)
            self.told_full(browser.ask("POST", "/api/jobs/D-1/events", body))
            self.told_full(browser.ask("POST", "/api/jobs/D-1/attachments", b"\x89PNG\r\n\x1a\n" + os.urandom(300_000), {"Content-Type": "image/png"}))
            job = browser.ask("GET", "/api/jobs/D-1")
            self.assertEqual((job.status, job.json["seq"]), (200, before), "what was there can be read, and no more is there")
        self.assertTrue(any("POST /api/jobs/D-1/events" in line and "507" in line for line in server.log()))
        make_room()
        for _ in range(2):  # the second time its answer was lost
            receipt = browser.ask("POST", "/api/jobs/D-1/events", body).json
            self.assertEqual((len(receipt["accepted"]), receipt["refused"]), (60, []))
        job = browser.ask("GET", "/api/jobs/D-1").json
        self.assertEqual(job["seq"], before + 60)
        texts = [note["text"] for step in job["steps"] for note in step["notes"]]
        self.assertEqual(len(texts), 60)
        self.assertEqual(len(set(texts)), 60)

    def sound(self, data):
        with sqlite3.connect(data / "shop.sqlite") as store:
            self.assertEqual(store.execute("PRAGMA integrity_check").fetchall(), [("ok",)])
        record, key = self.directory / "record.json", self.directory / "shop.pub"
        record.write_text(run("export", "D-1", "--data", str(data)).stdout)
        key.write_text(run("public-key", "--data", str(data)).stdout)
        proven = run("verify", str(record), "--trust", str(key))
        self.assertEqual(proven.returncode, 0, proven.stdout + proven.stderr)

    def test_files_that_can_not_grow(self):
        data = self.directory / "shop"
        server, browser = self.start(data)
        self.with_one_job(server, browser)
        log = data / "shop.sqlite-wal"
        self.full_disk(server, browser, lambda room: server.let_files_grow_to(log.stat().st_size + room if room else 0), lambda: server.let_files_grow_to(None))
        self.assertEqual(server.stop(), 0)
        self.sound(data)

    def test_a_file_system_without_room(self):
        self.want_namespace(OWN_DISK)
        disk = self.directory / "disk"
        disk.mkdir()
        server, browser = self.start(disk / "shop", in_namespace(OWN_DISK, disk))
        self.with_one_job(server, browser)
        seen = Path(f"/proc/{server.process.pid}/root{disk}")  # where it is from out here
        filler = seen / "filler"

        def make_full(room):
            with open(filler, "ab", buffering=0) as file:
                for size in (65536, 4096, 1):
                    try:
                        while True:
                            file.write(b"x" * size)
                    except OSError:
                        continue
                file.truncate(file.tell() - room)

        self.full_disk(server, browser, make_full, filler.unlink)
        saved = self.directory / "saved"
        shutil.copytree(seen / "shop", saved)
        self.assertEqual(server.stop(), 0)
        self.sound(saved)

    def test_the_server_is_killed_while_its_disk_is_full(self):
        data = self.directory / "shop"
        server, browser = self.start(data)
        self.with_one_job(server, browser)
        body = self.notes(browser, 60, "kept on the tablet")
        server.let_files_grow_to((data / "shop.sqlite-wal").stat().st_size + 9000)
        self.told_full(browser.ask("POST", "/api/jobs/D-1/events", body))
        server.stop(signal.SIGKILL)
        again, browser_again = self.start(data)
        browser_again.sign_in("R.T.")
        receipt = browser_again.ask("POST", "/api/jobs/D-1/events", body).json
        self.assertEqual((len(receipt["accepted"]), receipt["refused"]), (60, []))
        self.assertEqual(again.stop(), 0)
        self.sound(data)

    def test_a_store_that_can_only_be_read_is_refused_at_the_start(self):
        self.want_namespace(READ_ONLY)
        data = self.directory / "shop"
        server, browser = self.start(data)
        self.with_one_job(server, browser)
        browser.close()
        self.assertEqual(server.stop(), 0)
        before = (data / "shop.sqlite").read_bytes()
        with self.assertRaisesRegex(AssertionError, "a directory that can be written"):
            Server(data, inside=in_namespace(READ_ONLY, data))
        self.assertEqual((data / "shop.sqlite").read_bytes(), before)
        self.sound(data)


if __name__ == "__main__":
    unittest.main()
