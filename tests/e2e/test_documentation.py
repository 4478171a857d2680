"""The manual page, docs/cli.md and the help say everything the program can do."""

import re
import shlex
import unittest

from harness import ROOT, ProgramTest

COMMANDS = ("judge", "plan", "sweep", "stack", "fit", "torque", "fluid", "seal", "true", "rotor", "balance", "align", "performance", "trim", "pressure-hold", "system", "vibration", "returns", "cause", "catalog list", "catalog show", "serve", "verify", "backup",
            "restore", "rebuild", "export", "lives", "import", "public-key", "demo", "completion")


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


# The requirements of level 1 in the standard the security page goes through, by chapter and section.
LEVEL_1 = {
    "2.1": range(1, 13), "2.2": (1, 2, 3), "2.3": (1,), "2.5": range(1, 7), "2.7": range(1, 5), "2.8": (1,),
    "3.1": (1,), "3.2": (1, 2, 3), "3.3": (1, 2), "3.4": range(1, 6), "3.7": (1,),
    "4.1": (1, 2, 3, 5), "4.2": (1, 2), "4.3": (1, 2),
    "5.1": range(1, 6), "5.2": range(1, 9), "5.3": range(1, 11), "5.5": range(1, 5),
    "6.2": (1,), "7.1": (1, 2), "7.4": (1,), "8.2": (1, 2, 3), "8.3": range(1, 5), "9.1": (1, 2, 3), "10.3": (1, 2, 3),
    "11.1": range(1, 6), "12.1": (1,), "12.3": range(1, 6), "12.4": (1, 2), "12.5": (1, 2), "12.6": (1,),
    "13.1": (1, 3), "13.2": (1, 2, 3), "13.3": (1,),
    "14.2": (1, 2, 3), "14.3": (2, 3), "14.4": range(1, 8), "14.5": (1, 2, 3),
}


class SecurityPage(unittest.TestCase):
    def setUp(self):
        self.page = (ROOT / "docs/security.md").read_text()
        self.rows = re.findall(r"^\| ([\d., ]+) \| ([a-z ]+) \| (.*) \|$", self.page, flags=re.M)

    def has(self, file, name):
        """Whether the test of that name is in the file that the page says."""
        folder, stem = file.split("/")
        path, pattern = {
            "e2e": (f"tests/e2e/{stem}.py", rf"^    def {name}\("),
            "page": (f"tests/e2e/page/{stem}.mjs", rf"^  '{re.escape(name)}[^\n]*': "),
            "web": (f"web/test/unit/{stem}.test.ts", rf"\bit\('{re.escape(name)}',"),
            "fuzz": (f"tests/fuzz/{stem}.cpp", rf"\b{name}\("),
        }.get(folder, (f"tests/unit/{file}.cpp", rf"^(TEST|TEST_F|TEST_P)\({', '.join(re.escape(p) for p in name.split('.'))}\)"))
        return (ROOT / path).is_file() and re.search(pattern, (ROOT / path).read_text(), flags=re.M) is not None

    def test_every_test_file_is_built(self):
        files = sorted((ROOT / "tests").rglob("*_test.cpp"))
        self.assertGreater(len(files), 200)
        for file in files:
            self.assertIn(file.name, (file.parent / "CMakeLists.txt").read_text(), file.relative_to(ROOT))

    def test_every_test_named_in_the_security_page_exists(self):
        named = re.findall(r"`([a-z0-9]+/\w+): ([^`]+)`", self.page)
        self.assertGreater(len(named), 100)
        for file, name in named:
            self.assertTrue(self.has(file, name), f"{file}: {name}")
        self.assertFalse(self.has("server/application_test", "Roles.IsNotThere"))
        self.assertFalse(self.has("page/together", "what nobody promised"))

    def test_every_requirement_of_level_1_is_answered_once(self):
        answered = [number for numbers, _, _ in self.rows for number in numbers.split(", ")]
        self.assertEqual(sorted(answered), sorted(f"{section}.{n}" for section, numbers in LEVEL_1.items() for n in numbers))
        self.assertEqual(len(answered), 128)

    def test_what_is_said_to_be_met_names_what_shows_it(self):
        for numbers, state, why in self.rows:
            self.assertIn(state, ("met", "partly", "open", "not applicable"), numbers)
            if state == "met":
                self.assertRegex(why, r"`[a-z0-9]+/\w+: ", numbers)


if __name__ == "__main__":
    unittest.main()
