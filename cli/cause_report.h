// What `pumpwright cause` found, and how it is printed.
#pragma once

#include <string>
#include <vector>

#include "job/cause_wording.h"

namespace pumpwright {

struct CauseReport {
  std::string file;
  std::string name;
  job::StripDownSheet sheet;
  job::CauseFinding finding;
  job::Language language = job::Language::english;
};

std::string cause_text(const CauseReport& report, const job::CauseTables& tables);
std::string cause_json(const CauseReport& report, const job::CauseTables& tables);

}  // namespace pumpwright
