"""The manual page, docs/cli.md and the help say everything the program can do."""

import re
import shlex
import unittest

from harness import ROOT, ProgramTest

COMMANDS = ("judge", "plan", "sweep", "stack", "fit", "torque", "catalog list", "catalog show", "serve", "verify", "backup", "restore",
            "rebuild", "export", "public-key", "demo", "completion")


class Documentation(ProgramTest):
    def setUp(self):
        self.manual = (ROOT / "docs/man/pumpwright.1").read_text().replace("\\-", "-")
        self.page = (ROOT / "docs/cli.md").read_text()

    def options_of(self, command):
        """Long options, as the command's own help lists them."""
        help_text = self.text_of(*command.split(), "--help")
        options = set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", help_text.split("Example:")[0].split("Options:")[1]))
        self.assertIn("--help", options)
        return options

    def test_the_program_has_the_commands_this_test_knows(self):
        listed = re.findall(r"^  ([\w-]+) ", self.text_of("--help").split("Subcommands:")[1].split("Exit status:")[0], flags=re.M)
        self.assertEqual(set(listed), {c.split()[0] for c in COMMANDS})

    def test_every_command_and_option_is_in_the_manual(self):
        for command in COMMANDS:
            self.assertIn(command.split()[0].upper(), self.manual)
            for option in self.options_of(command):
                self.assertTrue(option in self.manual, f"{command} {option}")

    def test_every_command_and_option_is_in_the_page(self):
        for command in COMMANDS:
            section = re.search(rf"^## {command.split()[0]}\n(.*?)(?=^## |\Z)", self.page, flags=re.M | re.S).group(1)
            for option in self.options_of(command) - {"--help"}:
                self.assertTrue(option in section, f"{command} {option}")

    def test_no_option_is_documented_that_does_not_exist(self):
        known = set().union(*(self.options_of(c) for c in COMMANDS)) | {"--version"}
        for text in (self.manual, self.page):
            self.assertEqual(set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", text)) - known, set())

    def test_every_help_ends_with_an_example_of_its_command(self):
        for command in COMMANDS:
            example = self.text_of(*command.split(), "--help").split("Example:\n")[1].strip()
            self.assertTrue(example.startswith(f"pumpwright {command}"), example)
            self.assertTrue(example in self.page, example)

    def test_every_json_key_of_a_sweep_is_in_the_page(self):
        readings = b"angle_deg,reading\n0,3\n90,1\n180,-1\n270,1\n"
        got = self.json_of("sweep", "-", *shlex.split("--unit thou --limit 9 --graduation 1 --axis face --radius 2"),
                           stdin=readings)

        def keys(value):
            if isinstance(value, dict):
                for key, inner in value.items():
                    yield key
                    yield from keys(inner)
            elif isinstance(value, list):
                for inner in value:
                    yield from keys(inner)

        for key in set(keys(got)):
            self.assertRegex(self.page, rf"\b{key}\b")


if __name__ == "__main__":
    unittest.main()
