// The demonstration jobs as a starting point for tests: read, changed in one place, judged.
#pragma once

#include <fstream>
#include <sstream>
#include <string>

#include <nlohmann/json.hpp>

#include "catalog/embedded.h"
#include "engine/quantity/bad_input.h"
#include "job/job_file.h"
#include "job/judgement.h"

namespace pumpwright::job::testing {

inline nlohmann::json demo(const std::string& name) {
  std::ifstream file(std::string(PUMPWRIGHT_SOURCE_DIR) + "/demo/" + name + ".json");
  return nlohmann::json::parse(file);
}

inline const Catalog& catalog() {
  static const Catalog loaded = Catalog::load(embedded_catalog());
  return loaded;
}

inline std::vector<NamedBytes> step_files() {
  return files_under(embedded_catalog(), "steps/");
}

struct Judged {
  JobFile job;
  Snapshot snapshot;
  JobState state;
  Judgement judgement;
  const CheckFinding& of(const std::string& check) const { return *judgement.find(check); }
};

inline Judged judge_document(const nlohmann::json& document) {
  Judged out;
  out.job = decode_job_file(document.dump());
  out.snapshot = snapshot_of(out.job, catalog(), step_files(), "test");
  out.state = fold(out.snapshot.plan, out.job.events);
  out.judgement = judge(out.snapshot, out.state);
  return out;
}

// The last reading event of a check, to be changed in place.
inline nlohmann::json& reading_of(nlohmann::json& document, const std::string& check) {
  auto& events = document["events"];
  for (auto it = events.rbegin(); it != events.rend(); ++it)
    if (it->value("check", "") == check && it->value("event", "") == "reading") return *it;
  throw std::runtime_error("the demo has no reading of " + check);
}

// The message of the BadInput that `act` throws; empty when it throws none.
template <class F>
std::string refusal(F act) {
  try {
    act();
  } catch (const BadInput& e) {
    return e.what();
  }
  return "";
}

}  // namespace pumpwright::job::testing
