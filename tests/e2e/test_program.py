"""How the program behaves as a process: help, version, pipes, bounds, completion."""

import os
import re
import subprocess
import tempfile
import unittest
from pathlib import Path

from harness import ENVIRONMENT, PROGRAM, ProgramTest, run

SWEEP = ("sweep", "-", "--unit", "thou", "--limit", "7", "--graduation", "0.5")
READINGS = b"angle_deg,reading\n0,1\n90,0\n180,-1\n270,0\n"


def complete(words):
    """What bash offers after these words, the last one being under the cursor."""
    script = """
      source <("$0" completion bash)
      COMP_WORDS=("$@") COMP_CWORD=$(($# - 1))
      _pumpwright
      printf '%s\\n' "${COMPREPLY[@]}"
    """
    done = subprocess.run(["bash", "-c", script, PROGRAM, *words], capture_output=True, env=ENVIRONMENT, check=True)
    assert done.stderr == b"", done.stderr
    return done.stdout.decode().split()


class Program(ProgramTest):
    def test_version_names_version_build_and_catalog(self):
        text = self.text_of("--version")
        self.assertRegex(text, r"\Apumpwright \d+\.\d+\.\d+\nbuild [0-9a-f]{40}\ncatalog [0-9a-f]{64}\n\Z")
        notes = subprocess.run(["readelf", "-n", PROGRAM], capture_output=True, text=True, check=True).stdout
        self.assertEqual(re.search(r"build (\w+)", text).group(1), re.search(r"Build ID: (\w+)", notes).group(1))

    def test_there_is_no_colour_in_a_pipe(self):
        self.assertNotIn("\x1b", self.text_of(*SWEEP, stdin=READINGS))

    def test_there_is_colour_on_a_terminal_unless_no_color_is_set(self):
        for environment, coloured in (({"TERM": "xterm"}, True), ({"TERM": "xterm", "NO_COLOR": "1"}, False),
                                      ({"TERM": "dumb"}, False)):
            master, slave = os.openpty()
            with subprocess.Popen([PROGRAM, *SWEEP], stdin=subprocess.PIPE, stdout=slave,
                                  env={**ENVIRONMENT, **environment}) as process:
                process.communicate(READINGS)
            os.close(slave)
            shown = os.read(master, 65536)
            os.close(master)
            self.assertEqual(b"\x1b[" in shown, coloured, environment)

    def test_a_closed_pipe_is_no_error_and_keeps_the_status(self):
        reader, writer = os.pipe()
        os.close(reader)
        done = subprocess.run([PROGRAM, *SWEEP], input=READINGS, stdout=writer, stderr=subprocess.PIPE, env=ENVIRONMENT,
                              check=False)
        os.close(writer)
        self.assertEqual((done.returncode, done.stderr), (0, b""))

    def test_a_full_disk_is_an_error(self):
        with open("/dev/full", "wb") as full:
            done = subprocess.run([PROGRAM, *SWEEP], input=READINGS, stdout=full, stderr=subprocess.PIPE, env=ENVIRONMENT,
                                  check=False)
        self.assertEqual(done.returncode, 3)
        self.assertIn(b"could not be written", done.stderr)

    def test_a_file_too_large_is_refused_without_being_read(self):
        with tempfile.TemporaryDirectory() as folder:
            big = Path(folder) / "digits"
            with open(big, "wb") as file:  # 100 MB of digits
                for _ in range(100):
                    file.write(b"1234567890" * 100_000)
            before = os.stat(big)
            for arguments in (("sweep", str(big), "--unit", "thou", "--limit", "7"), ("stack", str(big)),
                              ("judge", str(big)), ("plan", str(big))):
                line = self.complaint_of(*arguments)
                self.assertIn(str(big), line)
                self.assertIn("95 MiB", line)
            self.assertEqual(os.stat(big).st_size, before.st_size)

    def test_a_stream_without_end_is_refused(self):
        for arguments in (("sweep", "-", "--unit", "thou", "--limit", "7"), ("stack", "-")):
            with open("/dev/zero", "rb") as endless:
                done = subprocess.run([PROGRAM, *arguments], stdin=endless, capture_output=True, env=ENVIRONMENT, check=False,
                                      timeout=300)
            self.assertEqual(done.returncode, 2)
            self.assertEqual(done.stderr.count(b"\n"), 1)
            self.assertIn(b"standard input", done.stderr)

    def test_bash_completes_commands_options_and_words(self):
        self.assertEqual(complete(["pumpwright", "sw"]), ["sweep"])
        self.assertEqual(complete(["pumpwright", "catalog", ""])[:2], ["list", "show"])
        self.assertIn("--graduation", complete(["pumpwright", "sweep", "x.csv", "--gr"]))
        self.assertEqual(complete(["pumpwright", "sweep", "x.csv", "--axis", ""]), ["radial", "face"])
        self.assertEqual(complete(["pumpwright", "completion", "f"]), ["fish"])

    def test_every_shell_gets_every_option(self):
        for shell, spelling in (("bash", "--{}"), ("zsh", "--{}"), ("fish", "-l {}")):
            script = self.text_of("completion", shell)
            for option in ("graduation", "limit-on", "samples", "hub-outside", "proof-share", "freeze", "language", "version"):
                self.assertIn(spelling.format(option), script, shell)

    def test_a_missing_command_is_refused(self):
        self.complaint_of()

    def test_an_option_given_twice_is_refused(self):
        self.assertIn("--unit", self.complaint_of(*SWEEP, "--unit", "mm", stdin=READINGS))

    def test_a_file_name_with_a_line_break_stays_on_one_line(self):
        done = run("stack", "no\nsuch.json")
        self.assertEqual(done.stderr.count("\n"), 1)


if __name__ == "__main__":
    unittest.main()
