#include "engine/assembly/input_check.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {

void require_that(bool holds, double value, const std::string& field, const std::string& expected) {
  if (!holds) throw BadInput({field, "", fmt::format("{:.9g}", value), expected});
}

void require_between(double value, double lowest, double highest, const std::string& field,
                     const std::string& expected) {
  require_that(std::isfinite(value) && value >= lowest && value <= highest, value, field, expected);
}

}  // namespace pumpwright
