"""`pumpwright returns` on literal lists with answers worked out by hand, and on its examples."""

import math
import unittest

from harness import ProgramTest

# Ten came back, ten still running at 500 h: the life test of the NIST/SEMATECH handbook, 8.4.1.3.
HANDBOOK = "time,event\n" + "".join(f"{t},returned\n" for t in (54, 187, 216, 240, 244, 335, 361, 373, 375, 386)) + "500,running\n" * 10


def table(header, *rows):
    return (header + "\n" + "\n".join(rows) + "\n").encode()


class Returns(ProgramTest):
    def test_the_list_a_shop_writes_of_its_record_is_read_as_it_is(self):
        lines = ["pump,job,group,time,event,impeller_sweep_um,end_float_um"]
        lines += [f'S{i},G-{i},"wash pump, 2 in",{days} d,{event},{sweep},' for i, (days, event, sweep) in enumerate(
            [(40, "returned", 150), (300, "running", 30), (55, "returned", 140), (280, "running", 35), (90, "returned", 32), (310, "running", 160)])]
        got = self.json_of("returns", "-", "--clock", "calendar", "--covariate", "impeller_sweep_um", stdin="\r\n".join(lines).encode())
        self.assertEqual((got["rows"], got["returned"], got["running"]), (6, 3, 3))
        self.assertEqual(got["readings"]["list"][0]["name"], "impeller_sweep_um")

    def test_a_life_test_from_a_handbook(self):
        got = self.json_of("returns", "-", "--unit", "h", stdin=HANDBOOK.encode())
        self.assertEqual((got["rows"], got["returned"], got["running"], got["replaced"]), (20, 10, 10, 0))
        self.assertAlmostEqual(got["weibull"]["shape"], 1.7208, delta=5e-5)
        self.assertAlmostEqual(got["weibull"]["scale_s"] / 3600, 606.5280, delta=1e-3)
        self.assertAlmostEqual(got["rate"]["mean_s"] / 3600, 777.1, delta=1e-6)
        steps = got["curve"]["steps"]
        self.assertEqual(len(steps), 10)
        for i, step in enumerate(steps):
            self.assertAlmostEqual(step["surviving"], 0.95 - 0.05 * i, delta=1e-12)
        self.assertEqual(got["curve"]["median_s"], 386 * 3600)
        self.assertIsNone(got["groups"])
        self.assertIsNone(got["verdict"])

    def test_times_take_the_unit_of_the_option_or_their_own(self):
        a = self.json_of("returns", "-", "--unit", "d", stdin=table("time,event", "2,returned", "5,running"))
        b = self.json_of("returns", "-", stdin=table("event;time", "returned;48 h", "running;5 d"))
        self.assertEqual(a["rate"], b["rate"])
        line = self.complaint_of("returns", "-", stdin=table("time,event", "2,returned"))
        self.assertTrue(line.startswith('pumpwright: standard input: line 2: time: read "2"'), line)

    def test_columns_go_by_any_name_and_the_rest_is_left_alone(self):
        got = self.json_of("returns", "-", "--unit", "h", "--time", "hours", "--event", "how it ended",
                           stdin=table("hours,remark,how it ended", "20,x,Returned", "30,y,replaced"))
        self.assertEqual((got["returned"], got["replaced"]), (1, 1))
        self.assertEqual(got["columns_left_alone"], ["remark"])
        self.assertEqual(got["not_computed"][0]["what"], "curve over age")

    def test_groups_that_come_back_differently(self):
        rows = [f"{100 + i},returned,soft" for i in range(12)] + [f"{900 + i},returned,hard" for i in range(12)]
        data = table("time,event,group", *rows)
        got = self.json_of("returns", "-", "--unit", "h", stdin=data)
        self.assertEqual([g["name"] for g in got["groups"]["list"]], ["soft", "hard"])
        self.assertLess(got["groups"]["log_rank"]["p"], 1e-5)
        self.assertIn("come back DIFFERENTLY", self.text_of("returns", "-", "--unit", "h", stdin=data))
        alike = table("time,event,faces", *[f"{100 + 7 * i},returned,{'a' if i % 2 else 'b'}" for i in range(20)])
        self.assertIn("CANNOT TELL", self.text_of("returns", "-", "--unit", "h", "--group", "faces", stdin=alike))

    def test_a_change_that_helped_one_that_harmed_and_one_nobody_can_tell(self):
        many = [f"{50 + 40 * i},returned" for i in range(15)] + ["1000,running"] * 5
        few = [f"{300 + 300 * i},returned" for i in range(2)] + ["1000,running"] * 18
        for before, after, status, verdict, reason in (
            (many, few, 0, "pass", "interval-below-one"),
            (few, many, 1, "fail", "interval-above-one"),
            (many, many, 1, "unproven", "one-in-the-interval"),
            (few, few, 1, "unproven", "too-few-returns"),
        ):
            data = table("time,event,group", *[r + ",before" for r in before], *[r + ",after" for r in after])
            got = self.json_of("returns", "-", "--unit", "h", "--before-after", status=status, stdin=data)
            self.assertEqual((got["verdict"], got["reason"]), (verdict, reason))
            text = self.text_of("returns", "-", "--unit", "h", "--before-after", status=status, stdin=data)
            self.assertIn(verdict.upper(), text)
            # Schoenfeld, equal groups, half as often, 80 %.
            self.assertAlmostEqual(got["change"]["settling"]["returns_needed"],
                                   4 * (1.959963985 + 0.841621234) ** 2 / math.log(2) ** 2, delta=1e-6)

    def test_without_the_flag_nothing_is_judged(self):
        data = table("time,event,group", "5,returned,before", "9,running,after")
        self.assertIsNone(self.json_of("returns", "-", "--unit", "h", stdin=data)["verdict"])

    def test_a_reading_that_goes_with_early_return(self):
        rows = [f"{1000 - 30 * i + (i * 37) % 200},returned,{1 + 0.1 * i:.1f},{(i * 7) % 5}" for i in range(28)]
        data = table("time,event,runout,float", *rows, "400,running,,3")
        got = self.json_of("returns", "-", "--unit", "h", "--covariate", "runout", "--covariate", "float", stdin=data)
        first, second = got["readings"]["list"]
        self.assertEqual(first["name"], "runout")
        self.assertLess(first["p"], 1e-3)
        self.assertGreater(first["ratio_low"], 1)
        self.assertGreater(second["p"], 0.05)
        self.assertEqual((got["readings"]["pumps"], got["readings"]["left_out"]), (28, 1))
        self.assertAlmostEqual(first["ratio"], math.exp(first["coefficient"]), delta=1e-9 * first["ratio"])
        self.assertIn("need not be their cause", self.text_of("returns", "-", "--unit", "h", "--covariate", "runout", stdin=data))

    def test_a_pump_that_comes_back_more_and_more_often(self):
        rows = [f"P-1,{t},returned" for t in (1000, 500, 250, 120, 60, 30, 15)] + ["P-1,5,running", "P-2,3000,running"]
        got = self.json_of("returns", "-", "--unit", "h", stdin=table("pump,time,event", *rows))
        self.assertEqual((got["trend"]["pumps"], got["trend"]["returned"]), (2, 7))
        self.assertGreater(got["trend"]["shape_low"], 1)
        self.assertIn("MORE AND MORE", self.text_of("returns", "-", "--unit", "h", stdin=table("pump,time,event", *rows)))

    def test_what_the_list_does_not_support_is_said(self):
        text = self.text_of("returns", "-", "--unit", "h", stdin=table("time,event,pump,group", "9,running,A,x", "20,running,B,x"))
        self.assertIn("none came back", text)
        for what in ("curve over age", "comparison of groups", "trend of a pump over its builds"):
            self.assertIn(what, text)

    def test_the_examples(self):
        seals = ("returns", "docs/examples/returns-seals.csv", "--unit", "h")
        got = self.json_of(*seals, "--covariate", "shaft_runout_thou", "--covariate", "end_float_thou", "--group", "site")
        self.assertEqual(got["returned"], 26)
        self.assertEqual(got["readings"]["left_out"], 1)
        self.assertEqual(len(got["groups"]["list"]), 3)
        self.json_of(*seals, "--before-after", status=1)
        wash = self.json_of("returns", "docs/examples/returns-wash-pumps.csv", "--unit", "h")
        self.assertEqual(wash["trend"]["returned"], 23)

    def test_mistakes_in_the_file_are_named_by_line_and_column(self):
        for rows, says in (
            ((), "line 2: rows"),
            (("12,lost",), 'line 2: event: read "lost"'),
            (("12,",), 'line 2: event: read "nothing"'),
            (("0,returned",), 'line 2: time: read "0"'),
            (("-4,returned",), 'line 2: time: read "-4"'),
            (("soon,returned",), 'line 2: time: read "soon"'),
            (("12 mm,returned",), 'line 2: time: read "12 mm"'),
            (("2000000,returned",), 'line 2: time: read "2000000"'),
            (("12,returned,3",), "line 2: columns"),
            (("5,running", "12"), "line 3: columns"),
            (('12,"returned',), "line 2: cell"),
        ):
            with self.subTest(rows):
                line = self.complaint_of("returns", "-", "--unit", "h", stdin=table("time,event", *rows))
                self.assertTrue(line.startswith(f"pumpwright: standard input: {says}"), line)
        for header, says in (("time,ending", "line 1: event"), ("hours,event", "line 1: time"), ("time,event,event", "line 1: columns")):
            line = self.complaint_of("returns", "-", "--unit", "h", stdin=table(header, "5,running"))
            self.assertTrue(line.startswith(f"pumpwright: standard input: {says}"), line)
        self.assertIn("a first line", self.complaint_of("returns", "-", stdin=b""))

    def test_rows_and_arguments_that_contradict_each_other(self):
        plain = table("time,event,group,x", "5,running,before,1", "9,returned,later,1", "7,returned,before,1")
        for arguments, data, says in (
            (("--before-after",), plain, 'line 3: group: read "later"'),
            (("--before-after",), table("time,event", "5,running"), "--before-after"),
            (("--before-after",), table("time,event,group", "5,running,before"), 'no row with "after"'),
            (("--covariate", "x"), plain, '--covariate: read "x (the same for all pumps)"'),
            (("--covariate", "group"), plain, "line 2: group"),
            (("--group", "seal"), plain, "line 1: seal"),
            (("--confidence", "20 %"), plain, "--confidence"),
            (("--worth", "1"), plain, "--worth"),
            (("--unit", "mm"), plain, "--unit"),
            (("--clock", "moon"), plain, "--clock"),
            ((), table("pump,time,event", "A,5,running", "A,9,returned"), 'line 3: pump: read "A"'),
        ):
            with self.subTest(arguments):
                unit = () if "--unit" in arguments else ("--unit", "h")
                self.assertIn(says, self.complaint_of("returns", "-", *unit, *arguments, stdin=data))

    def test_people_are_not_compared(self):
        data = table("time,event,technician,signed_by", "5,running,AB,1", "9,returned,CD,2")
        for flag, column in (("--group", "technician"), ("--covariate", "signed_by")):
            line = self.complaint_of("returns", "-", "--unit", "h", flag, column, stdin=data)
            self.assertIn("people are not compared", line)


if __name__ == "__main__":
    unittest.main()
