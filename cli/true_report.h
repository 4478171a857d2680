// What `pumpwright true` was asked, what it found, and how it says so.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "cli/true_file.h"
#include "job/true_running.h"
#include "job/true_wording.h"

namespace pumpwright {

struct TrueReport {
  std::string file;
  std::string name;
  const Unit* unit = nullptr;  // in which lengths are shown
  job::TrueQuestion<true_running::Rotating> rotating_question;
  job::TrueQuestion<true_running::Standing> standing_question;
  std::optional<job::TrueFinding<true_running::Rotating>> rotating;  // absent: nothing of the chain was swept
  std::optional<job::TrueFinding<true_running::Standing>> standing;
  std::optional<true_running::Tapping> tapping;
  std::vector<job::SweepLeftOut> left_out;
  std::vector<job::Text> assumed;
  std::map<std::string, job::Text> titles;  // of stations by their ids
  job::Language language = job::Language::english;

  job::TrueWording wording() const;

  // Something was swept, every sweep keeps to its limit, and what was read after a remedy was no surprise.
  bool all_well() const;
};

std::string true_text(const TrueReport& report, bool colour);
std::string true_json(const TrueReport& report);

}  // namespace pumpwright
