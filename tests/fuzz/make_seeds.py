"""Writes the seeds of the fuzz targets from what the project has already: demonstration jobs and files that must be refused."""

import json
import shutil
import struct
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LIMIT = 200_000  # larger seeds only slow the search


def put(folder, name, data):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(data)


def main(out):
    out = Path(out)
    shutil.rmtree(out, ignore_errors=True)
    texts = ["7 thou", ".007 in", "1 3/8 in", "0,18 mm", "180 °F", "12 psig", "4 tenths", "45 ft-lb", "+3", "1,250", "3550 rpm"]
    for number, text in enumerate(texts):
        for kind in (0, 7, 11, 13, 16):
            put(out / "quantity", f"{number}-{kind}", bytes([kind]) + text.encode())
    for path in [*ROOT.glob("tests/e2e/bad/*.csv"), *ROOT.glob("docs/examples/*.csv")]:
        put(out / "sweep_csv", path.name, path.read_bytes()[:LIMIT])
    put(out / "sweep_csv", "four.csv", b"angle_deg,reading\n0,0\n90,1\n180,2\n270,1\n")
    for path in [*ROOT.glob("demo/*.json"), *ROOT.glob("tests/e2e/bad/job-*.json")]:
        if path.stat().st_size < LIMIT:
            put(out / "job_file", path.name, path.read_bytes())
    demo = json.loads((ROOT / "demo/greenhouse-circulator.json").read_text())
    for number, event in enumerate(demo["events"]):
        body = {"device": "tablet-1", "events": [{"key": f"k{number}", "device_seq": number, "type": event["event"],
                                                   "payload": json.dumps(event)}]}
        put(out / "request", f"event-{number}", b"/api/jobs/G-2117/events\n" + json.dumps(body).encode())
    for bits, code in ((16, 1), (24, 1), (32, 1), (32, 3)):
        data = b"".join((1000 * (i % 7)).to_bytes(bits // 8, "little") for i in range(700))
        head = struct.pack("<HHIIHH", code, 1, 6400, 6400 * bits // 8, bits // 8, bits)
        put(out / "wav", f"{bits}-{code}.wav", b"RIFF" + struct.pack("<I", 36 + len(data)) + b"WAVEfmt " + struct.pack("<I", 16) + head
            + b"data" + struct.pack("<I", len(data)) + data)
    zeros = "0" * 64
    record = {"format": "pumpwright-record", "version": 1, "stream": "job/G-2117", "shop": "a", "exported_at": "2026-11-18T08:00:00Z",
              "count": 1, "head": zeros, "seal": "0" * 128,
              "events": [{"seq": 1, "type": "opened", "actor": "J.M.", "device": "d", "device_seq": 1, "key": "k",
                          "accepted_at": "2026-11-18T08:00:00.000Z", "prev": zeros, "hash": zeros,
                          "payload": json.dumps(demo["job"])}]}
    put(out / "record", "one-event", json.dumps(record).encode())


if __name__ == "__main__":
    main(sys.argv[1])
