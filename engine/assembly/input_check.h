// The few conditions every assembly function puts on its numbers, each refused with the same wording.
#pragma once

#include <string>

namespace pumpwright {

// Throws BadInput for `field` unless `value` is finite and lowest <= value <= highest. `expected` completes
// "would be valid: ...", e.g. "a coefficient from 0 to 1".
void require_between(double value, double lowest, double highest, const std::string& field,
                     const std::string& expected);

// Throws BadInput for `field` unless `holds`; `value` is shown.
void require_that(bool holds, double value, const std::string& field, const std::string& expected);

}  // namespace pumpwright
