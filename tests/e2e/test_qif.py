"""Lengths as QIF 3.0 results, held to what the published schema says of the parts used.

Source: QIF 3.0.0 schema files QIFDocument.xsd, QIFResults.xsd, Units.xsd, Characteristics.xsd (Dimensional Metrology Standards Consortium;
ISO 23952:2020), read in the QIF community's public repository, with its sample documents of results. The schema itself is not kept
here: order of children, required ones, words and references are restated below.
"""

import json
import pathlib
import re
import tempfile
import unittest
import xml.etree.ElementTree as ElementTree

from harness import ROOT, run

NS = "{http://qifstandards.org/xsd/qif3}"

# Children in their order; a name with * is required. "…X" stands for any element whose name ends in X.
ORDER = {
    "QIFDocument": ["QPId*", "Attributes", "Version", "Header", "FileUnits", "MeasurementResources", "Characteristics", "Results"],
    "Version": ["TimeCreated"],
    "Header": ["Application", "Author", "ApplicationSource", "Description", "Scope"],
    "Application": ["Name*"],
    "FileUnits": ["PrimaryUnits*"],
    "PrimaryUnits": ["LinearUnit"],
    "LinearUnit": ["SIUnitName", "UnitName*", "UnitConversion"],
    "UnitConversion": ["Factor*", "Offset"],
    "MeasurementResources": ["MeasurementDevices"],
    "MeasurementDevices": ["MeasurementDevice*"],
    "MeasurementDevice": ["Name"],
    "Characteristics": ["CharacteristicDefinitions", "CharacteristicNominals", "CharacteristicItems"],
    "CharacteristicDefinitions": ["…CharacteristicDefinition*"],
    "CharacteristicNominals": ["…CharacteristicNominal*"],
    "CharacteristicItems": ["…CharacteristicItem*"],
    "CircularRunoutCharacteristicDefinition": ["ToleranceValue*", "ToleranceDualValue", "DatumReferenceFrameId"],
    "DiameterCharacteristicDefinition": ["Tolerance", "NonTolerance"],
    "LengthCharacteristicDefinition": ["Tolerance", "NonTolerance"],
    "Tolerance": ["MaxValue", "MinValue", "DefinedAsLimit*"],
    "…CharacteristicNominal": ["CharacteristicDefinitionId*", "TargetValue"],
    "…CharacteristicItem": ["Attributes", "Description", "Name", "CharacteristicDesignator", "FeatureItemIds", "MeasurementDeviceIds", "CharacteristicNominalId*"],
    "CharacteristicDesignator": ["Designator*", "UUID"],
    "Results": ["MeasurementResultsSet*", "ActualComponentSets", "InspectionTraceability"],
    "MeasurementResultsSet": ["MeasurementResults*"],
    "MeasurementResults": ["Attributes", "InspectionTraceability", "ThisResultsInstanceQPId", "MeasuredFeatures", "MeasuredCharacteristics", "InspectionStatus*", "ActualComponentIds"],
    "MeasuredCharacteristics": ["CharacteristicMeasurements"],
    "CharacteristicMeasurements": ["…CharacteristicMeasurement*"],
    "…CharacteristicMeasurement": ["Attributes", "Description", "Status*", "CharacteristicItemId*", "TimeStamp", "FeatureMeasurementIds", "ActualComponentId", "MeasurementDeviceIds", "NonConformanceDesignator", "Value"],
    "Attributes": ["AttributeStr*"],
    "Status": ["CharacteristicStatusEnum", "InspectionStatusEnum"],
    "InspectionStatus": ["InspectionStatusEnum"],
    "MeasurementDeviceIds": ["Id*"],
    "ActualComponentIds": ["Id*"],
    "ActualComponentSets": ["ActualComponentSet*"],
    "ActualComponentSet": ["ActualComponent*"],
    "ActualComponent": ["Attributes", "SerialNumber", "AdditionalChanges", "Status*"],
}
WORDS = {
    "CharacteristicStatusEnum": {"PASS", "FAIL", "REWORK", "SYSERROR", "INDETERMINATE", "NOT_ANALYZED", "BASIC_OR_TED", "UNDEFINED"},
    "InspectionStatusEnum": {"PASS", "FAIL", "REWORK", "SYSERROR", "UNKNOWN", "NOT_CALCULATED", "NOT_MEASURED", "UNDEFINED"},
    "NonTolerance": {"MEASURED", "SET"},
    "DefinedAsLimit": {"true", "false"},
    "SIUnitName": {"meter"},
}
DECIMALS = {"Value", "MaxValue", "MinValue", "ToleranceValue", "Factor"}
LISTS = {"MeasurementDevices", "CharacteristicDefinitions", "CharacteristicNominals", "CharacteristicItems", "MeasurementResultsSet", "CharacteristicMeasurements",
         "Attributes", "MeasurementDeviceIds", "ActualComponentIds", "ActualComponentSets", "ActualComponentSet"}
NUMBERED = re.compile(r"(MeasurementDevice|MeasurementResults|ActualComponent|.*Characteristic(Definition|Nominal|Item|Measurement))$")
REFERENCES = {"CharacteristicDefinitionId": "CharacteristicDefinition", "CharacteristicNominalId": "CharacteristicNominal", "CharacteristicItemId": "CharacteristicItem"}


def name_of(element):
    assert element.tag.startswith(NS), element.tag
    return element.tag[len(NS):]


def fits(name, pattern):
    pattern = pattern.rstrip("*")
    return name.endswith(pattern[1:]) if pattern.startswith("…") else name == pattern


def order_of(name):
    return ORDER.get(name) or next((order for pattern, order in ORDER.items() if pattern.startswith("…") and fits(name, pattern)), [])


def qif_of(job):
    with tempfile.TemporaryDirectory() as directory:
        file = pathlib.Path(directory) / "readings.qif"
        done = run("judge", str(job), "--readings", str(file))
        assert done.returncode in (0, 1), done.stderr
        return file.read_bytes()


class QifResults(unittest.TestCase):
    def hold_to_schema(self, root):
        faults = []

        def walk(element):
            name = name_of(element)
            order = order_of(name)
            at = 0
            for child in element:
                child_name = name_of(child)
                places = [i for i, pattern in enumerate(order) if fits(child_name, pattern)]
                if not places or places[0] < at:
                    faults.append(f"{child_name} in {name}")
                else:
                    at = places[0]
                walk(child)
            for pattern in order:
                if pattern.endswith("*") and not any(fits(name_of(c), pattern) for c in element):
                    faults.append(f"{name} without {pattern}")
            if name in LISTS and int(element.get("n", -1)) != len(element):
                faults.append(f"{name} counts {element.get('n')} of {len(element)}")
            if name in WORDS and element.text not in WORDS[name]:
                faults.append(f"{name}: {element.text}")
            if name in DECIMALS and not re.fullmatch(r"-?[0-9]+(\.[0-9]+)?", element.text or ""):
                faults.append(f"{name}: {element.text}")
            if (element.get("id") is not None) != bool(NUMBERED.match(name)):
                faults.append(f"id of {name}")
            if name.endswith("CharacteristicDefinition") and name_of(element[0]) not in ("ToleranceValue", "Tolerance", "NonTolerance"):
                faults.append(f"{name} says no tolerance")

        walk(root)
        return faults

    def keys_of(self, root):
        ids = [int(e.get("id")) for e in root.iter() if e.get("id") is not None]
        self.assertEqual(len(ids), len(set(ids)), "ids are unique")
        self.assertEqual(int(root.get("idMax")), max(ids))
        by_id = {e.get("id"): name_of(e) for e in root.iter() if e.get("id") is not None}
        for element in root.iter():
            name = name_of(element)
            if name in REFERENCES:
                self.assertTrue(by_id[element.text].endswith(REFERENCES[name]), f"{name} {element.text} is a {by_id[element.text]}")
        for element in root.iter():  # a nominal of a runout points to a definition of a runout
            name = name_of(element)
            for reference in (c for c in element if name_of(c) in REFERENCES):
                kind = lambda n: re.sub(r"(Definition|Nominal|Item|Measurement)$", "", n)
                self.assertEqual(kind(name), kind(by_id[reference.text]))
        for element in root.iter(f"{NS}MeasurementDeviceIds"):
            self.assertEqual(by_id[element[0].text], "MeasurementDevice")
        return by_id

    def test_every_demonstration_job_keeps_to_the_schema(self):
        for job in sorted((ROOT / "demo").glob("*.json")):
            with self.subTest(job=job.name):
                root = ElementTree.fromstring(qif_of(job))
                self.assertEqual(root.get("versionQIF"), "3.0.0")
                self.assertRegex(root.find(f"{NS}QPId").text, "^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$")
                self.assertEqual(self.hold_to_schema(root), [])
                self.keys_of(root)

    def test_it_says_what_the_judge_says(self):
        job = ROOT / "demo/greenhouse-circulator.json"
        root = ElementTree.fromstring(qif_of(job))
        judged = json.loads(run("judge", str(job), "--json").stdout)
        checks = {c["check"]: c for c in judged["checks"]}
        designators = {}
        for item in root.find(f"{NS}Characteristics/{NS}CharacteristicItems"):
            designators[item.get("id")] = item.find(f"{NS}CharacteristicDesignator/{NS}Designator").text
        seen = set()
        for measurement in root.iter(f"{NS}CharacteristicMeasurements"):
            for one in measurement:
                check = checks[designators[one.find(f"{NS}CharacteristicItemId").text]]
                value_mm = float(one.find(f"{NS}Value").text)
                si = [r["value_si"] for r in check["readings"]]
                self.assertTrue(any(abs(value_mm - 1000 * v) < 1e-6 for v in si if v is not None), (check["check"], value_mm, si))
                word = {"pass": "PASS", "fail": "FAIL", "unproven": "INDETERMINATE"}
                self.assertIn(one.find(f"{NS}Status/{NS}CharacteristicStatusEnum").text, {word[r["verdict"]] for r in check["readings"]})
                seen.add(check["check"])
        self.assertIn("impeller-sweep", seen)
        self.assertNotIn("made-safe", seen)

    def test_the_walk_itself_finds_what_is_wrong(self):
        root = ElementTree.fromstring(qif_of(ROOT / "demo/greenhouse-circulator.json"))
        item = root.find(f"{NS}Characteristics/{NS}CharacteristicItems")[0]
        nominal = item.find(f"{NS}CharacteristicNominalId")
        item.remove(nominal)
        item.insert(0, nominal)
        root.find(f".//{NS}CharacteristicStatusEnum").text = "GOOD"
        faults = self.hold_to_schema(root)
        self.assertEqual(len(faults), 3, faults)  # two children behind it, and a word the standard does not have

    def test_the_same_record_is_the_same_document(self):
        job = ROOT / "demo/orchard-wash.json"
        self.assertEqual(qif_of(job), qif_of(job))


if __name__ == "__main__":
    unittest.main()
