// The plan: stages, steps, cautions and checks that this pump's make-up calls for.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/check.h"
#include "job/text.h"

namespace pumpwright::job {

enum class Stage { receive, measure_driver, measure_parts, fit, check_running, close_and_test, release };

std::string_view word_of(Stage stage);  // "receive", "measure-driver", …
std::optional<Stage> stage_from(std::string_view word);
Text title_of(Stage stage);

struct Step {
  std::string id;
  Stage stage = Stage::receive;
  Text title;
  Text what_to_do;
  Text caution;       // empty where nothing can hurt
  Source source;      // of the instruction
  bool hold = false;  // work stops here until another person releases it
  std::vector<Check> checks;
};

struct Plan {
  std::vector<Step> steps;  // in the order of work

  const Check* find(std::string_view check_id) const;  // null when the plan has no such check
  const Step* step(std::string_view step_id) const;
  const Step* step_of(std::string_view check_id) const;
};

}  // namespace pumpwright::job
