"""Broken files: each is refused with status 2 and one line that names file, place, value and what would be valid.

The files stand in bad/, one mistake each; bad/expected.toml says what the line must say.
"""

import tomllib
import unittest

from harness import HERE, ProgramTest

BAD = HERE / "bad"
EXPECTED = tomllib.loads((BAD / "expected.toml").read_text())

# How a file is handed in, by the first part of its name.
COMMANDS = {
    "sweep": ("sweep", "{}", "--unit", "thou", "--limit", "7 thou"),
    "chain": ("stack", "{}"),
    "job": ("judge", "{}"),
}


class BadInput(ProgramTest):
    def test_every_file_has_an_expectation_and_the_other_way_round(self):
        files = {p.name for p in BAD.iterdir() if p.name != "expected.toml"}
        self.assertEqual(files, set(EXPECTED))
        self.assertGreaterEqual(len(files), 30)

    def test_each_broken_file_is_refused_in_one_clear_line(self):
        for name, expected in EXPECTED.items():
            with self.subTest(name):
                path = str(BAD / name)
                command = [part.format(path) for part in COMMANDS[name.split("-")[0]]]
                line = self.complaint_of(*command)
                says, valid = line.split("; valid: ", 1)
                self.assertTrue(says.startswith(f"pumpwright: {path}: {expected['says']}"), line)
                self.assertIn(expected["valid"], valid)

    def test_broken_arguments_are_refused_in_one_clear_line(self):
        sweep = ["sweep", "-", "--unit", "thou", "--limit", "7 thou"]
        readings = b"angle_deg,reading\n0,1\n90,0\n180,-1\n270,0\n"
        for arguments, says in (
            (["sweep", "-", "--limit", "7 thou"], "--unit"),
            (["sweep", "-", "--unit", "thou"], "--limit"),
            (["sweep", "-", "--unit", "degC", "--limit", "7"], '--unit: read "degC"'),
            (["sweep", "-", "--unit", "thou", "--limit", "20 degC"], '--limit: read "20 degC"'),
            (["sweep", "-", "--unit", "thou", "--limit", "-7"], '--limit: read "-7"'),
            (["sweep", "-", "--unit", "thou", "--limit", "nan"], '--limit: read "nan"'),
            (["sweep", "-", "--unit", "thou", "--limit", "1e305 m"], '--limit: read "1e305 m"'),
            (["fit", "--shaft", "1e305 m", "--bore", "50 H7"], '--shaft: read "1e305 m"'),
            (["fit", "--shaft", "50 mm", "--shaft-u", "50 mm", "--bore", "50 H7"], '--shaft-u: read "50 mm"'),
            (["torque", "--thread", "M12", "--grade", "ISO 8.8", "--condition", "dry", "--torque", "1e305 N·m"], "--torque"),
            (["torque", "--thread", "M12", "--grade", "ISO 8.8", "--condition", "dry", "--preload", "1e305 kN"], "--preload"),
            ([*sweep, "--gap", "80"], '--gap: read "80"'),
            ([*sweep, "--gap", "80:ninety"], '--gap: read "ninety"'),
            ([*sweep, "--axis", "face"], "--radius"),
            ([*sweep, "--radius", "3 in"], "--radius"),
            ([*sweep, "--axis", "face", "--radius", "3 in", "--limit-on", "eccentricity"], "--limit-on"),
            ([*sweep, "--graduation", "0"], '--graduation: read "0"'),
            ([*sweep, "--rule", "lenient"], '--rule: read "lenient"; valid: one of guarded, simple'),
            ([*sweep, "--tolerance", "3"], "--tolerance"),
            (["sweep", "no/such/file.csv", "--unit", "thou", "--limit", "7"], "no such file"),
            (["sweep", ".", "--unit", "thou", "--limit", "7"], "a directory"),
            (["swoop"], "swoop"),
        ):
            with self.subTest(arguments):
                self.assertIn(says, self.complaint_of(*arguments, stdin=readings))


if __name__ == "__main__":
    unittest.main()
