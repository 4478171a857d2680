// The greenhouse job with one bench test more, taken from the published example of its command.
#pragma once

#include <fstream>
#include <string>

#include "job/bench_sheet.h"
#include "job/sheets/sheet_result.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::job::testing {

using nlohmann::json;

inline json example(const std::string& name) {
  std::ifstream file(std::string(PUMPWRIGHT_SOURCE_DIR) + "/docs/examples/" + name + ".json");
  return json::parse(file);
}

// What of the file stands under these keys, such as "runs" or "test/points".
inline json part_of(const json& file, std::span<const std::string_view> keys) {
  json out = json::object();
  for (const auto& key : keys) {
    const json::json_pointer at("/" + std::string(key));
    if (file.contains(at)) out[at] = file[at];
  }
  return out;
}

// What the make-up has of it.
inline json planned_of(const json& file, const SheetParts& parts) {
  json out = part_of(file, parts.planned);
  for (const auto& key : parts.read) {
    const json::json_pointer at("/" + std::string(key));
    if (!out.contains(at)) continue;
    out[at.parent_pointer()].erase(at.back());
    if (out[at.parent_pointer()].empty()) out.erase(at.parent_pointer().back());
  }
  return out;
}

inline std::string instrument_for(SheetOf sheet) {
  if (sheet == SheetOf::alignment) return "dial-1";
  return sheet == SheetOf::performance ? "gauge-1" : "meter-1";
}

// The greenhouse job with one sheet more, read once at its check.
inline json job_with(SheetOf sheet, const std::string& word, const json& file, const std::string& check) {
  const SheetParts& parts = parts_of(sheet);
  json document = demo("greenhouse-circulator");
  document["make_up"]["sheets"][word] = planned_of(file, parts);
  document["shop"]["instruments"].push_back({{"id", "meter-1"},
                                             {"kind", "vibration-meter"},
                                             {"measures", "velocity"},
                                             {"unit", "mm/s"},
                                             {"graduation", "0.01"},
                                             {"calibrated", "2026-06-01"},
                                             {"due", "2027-06-01"}});
  if (parts.takes_reading())
    document["events"].push_back({{"event", "reading"},
                                  {"id", "s1"},
                                  {"check", check},
                                  {"time", "2026-11-18T11:55:00Z"},
                                  {"actor", "L.H."},
                                  {"instrument", instrument_for(sheet)},
                                  {"sheet", part_of(file, parts.read)}});
  return document;
}

inline std::string all_remarks(const CheckFinding& finding) {
  std::string out;
  for (const auto& remark : finding.readings.at(0).remarks)
    out += remark.en + "\n" + remark.es + "\n";
  return out;
}

inline const SheetResult& result_of(const CheckFinding& finding) {
  return *finding.readings.at(0).sheet;
}

}  // namespace pumpwright::job::testing
