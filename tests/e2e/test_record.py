"""A shop's record on another machine, and the commands that keep a shop's data."""

import json
import os
import shutil
import tempfile
import unittest
from pathlib import Path

from harness import ProgramTest, run


class Records(ProgramTest):
    @classmethod
    def setUpClass(cls):
        cls.directory = Path(tempfile.mkdtemp(prefix="pumpwright-record-"))
        cls.data = str(cls.directory / "shop")
        made = run("demo", "--data", cls.data, "--jobs", "demo")
        assert made.returncode == 0, made.stderr
        cls.record = cls.directory / "G-2117.json"
        assert run("export", "G-2117", "--data", cls.data, "--out", str(cls.record)).returncode == 0
        cls.key = cls.directory / "shop.pub"
        cls.key.write_text(run("public-key", "--data", cls.data).stdout)

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.directory)

    def verify(self, path, *more):
        return run("verify", str(path), "--trust", str(self.key), *more)

    def changed(self, name, change):
        path = self.directory / name
        path.write_bytes(change(self.record.read_bytes()))
        return path

    def test_a_record_proves_itself_without_the_store(self):
        away = self.directory / "away"
        away.mkdir(exist_ok=True)
        done = run("verify", str(self.record), "--trust", str(self.key), cwd=away)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("PROVEN  job/G-2117", done.stdout)

    def test_a_changed_byte_names_its_event(self):
        events = json.loads(self.record.read_text())["events"]
        for event in events[::7]:
            start = self.record.read_bytes().index(b'{"seq":%d,' % event["seq"])
            at = self.record.read_bytes().index(b'"payload":"', start) + 20

            def change(data, at=at):
                return data[:at] + (b"x" if data[at : at + 1] != b"x" else b"y") + data[at + 1 :]

            done = self.verify(self.changed("changed.json", change))
            self.assertIn(done.returncode, (1, 2))
            self.assertRegex(done.stdout + done.stderr, rf"event {event['seq']}\b")

    def test_a_removed_event_shows_even_when_it_was_the_last(self):
        record = json.loads(self.record.read_text())
        head = record["head"]
        record["events"].pop()
        path = self.directory / "short.json"
        path.write_text(json.dumps(record))
        self.assertEqual(self.verify(path).returncode, 1)
        self.assertEqual(self.verify(self.record, "--head", head).returncode, 0)
        self.assertEqual(self.verify(self.record, "--head", "0" * 64).returncode, 1)

    def test_another_shops_key_proves_nothing(self):
        other = self.directory / "other"
        run("demo", "--data", str(other), "--jobs", "demo")
        key = self.directory / "other.pub"
        key.write_text(run("public-key", "--data", str(other)).stdout)
        self.assertEqual(run("verify", str(self.record), "--trust", str(key)).returncode, 1)

    def test_what_is_no_record_or_no_key_is_one_clear_line(self):
        for arguments in (
            (str(self.key), "--trust", str(self.key)),
            (str(self.record), "--trust", str(self.record)),
            (str(self.directory / "none.json"), "--trust", str(self.key)),
            ("demo/orchard-wash.json", "--trust", str(self.key)),
        ):
            done = run("verify", *arguments)
            self.assertEqual(done.returncode, 2, arguments)
            self.assertEqual(len(done.stderr.strip().split("\n")), 1, done.stderr)

    def test_a_record_is_judged_as_its_job_file_is(self):
        record = self.json_of("judge", str(self.record))
        file = self.json_of("judge", "demo/greenhouse-circulator.json")
        self.assertEqual(record["counts"], file["counts"])
        self.assertEqual(
            [(c["check"], c["verdict"], c["reason"]) for c in record["checks"]],
            [(c["check"], c["verdict"], c["reason"]) for c in file["checks"]],
        )

    def test_a_backup_is_verified_and_restored_elsewhere(self):
        copy = self.directory / "copy.pwbackup"
        done = run("backup", "--data", self.data, "--to", str(copy))
        self.assertEqual(done.returncode, 0, done.stderr)
        digest = done.stdout.split("hash ")[1].strip()
        self.assertEqual(run("backup", "--data", self.data, "--to", str(copy)).returncode, 2)
        new = self.directory / "new"
        self.assertEqual(run("restore", str(copy), "--data", str(new), "--hash", digest).returncode, 0)
        shutil.copy(Path(self.data) / "shop.key", new / "shop.key")
        self.assertIn("are what they were", run("rebuild", "--data", str(new)).stdout)
        again = run("export", "G-2117", "--data", str(new))
        self.assertEqual(json.loads(again.stdout)["events"], json.loads(self.record.read_text())["events"])
        self.assertEqual(run("restore", str(copy), "--data", str(new)).returncode, 2)
        damaged = bytearray(copy.read_bytes())
        damaged[len(damaged) // 2] ^= 1
        broken = self.directory / "broken.pwbackup"
        broken.write_bytes(damaged)
        done = run("restore", str(broken), "--data", str(self.directory / "third"), "--hash", digest)
        self.assertEqual(done.returncode, 2)

    def test_a_data_directory_that_is_none_is_refused_and_not_made(self):
        nowhere = self.directory / "nowhere"
        for command in (("rebuild",), ("export", "G-2117"), ("public-key",), ("backup", "--to", str(nowhere) + ".b")):
            done = run(*command, "--data", str(nowhere))
            self.assertEqual(done.returncode, 2, command)
            self.assertIn("--data", done.stderr)
        self.assertFalse(nowhere.exists())
        self.assertEqual(run("export", "X-1", "--data", self.data).returncode, 2)

    def test_the_demonstration_is_made_once(self):
        done = run("demo", "--data", self.data, "--jobs", "demo")
        self.assertEqual(done.returncode, 0)
        self.assertIn("nothing was changed", done.stdout)
        self.assertEqual(os.stat(self.data).st_mode & 0o777, 0o700)


if __name__ == "__main__":
    unittest.main()
