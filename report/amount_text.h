// Values as the build record prints them: in the unit the hand or the limit used, and in metric beside it.
#pragma once

#include <optional>
#include <string>

#include "engine/quantity/any_quantity.h"
#include "engine/quantity/parse.h"
#include "job/check.h"
#include "job/judgement.h"

namespace pumpwright::report {

// A value with the digits the instrument carries (graduation 0: four significant digits).
std::string value_text(const AnyQuantity& value, const Unit& unit, double graduation_si);

// The metric unit to show a value of `unit` in besides; null when `unit` is no inch unit.
const Unit* metric_beside(const Unit& unit, const AnyQuantity& value);

// The same in a metric unit, when `unit` is not one already; else empty.
std::string metric_text(const AnyQuantity& value, const Unit& unit, double graduation_si);

// The value of a computation with doubt ± `half_width_si`: as many decimals as plus_minus_text shows of it
// (half width 0: four significant digits).
std::string doubtful_text(const AnyQuantity& value, const Unit& unit, double half_width_si);

// "± 0.30 thou": two significant digits, `half_width_si` a step of the kind.
std::string plus_minus_text(double half_width_si, const Unit& unit);

// As written, with the unit when it was left out.
std::string written_text(const Written& written);

// "≤ 7 thou", "0.5 mm … 1 mm", "≥ 20 ft·lbf"; empty when there is no bound.
std::string limit_text(const job::Limit& limit);

// The same limit in another unit, "≤ 0.178 mm"; empty when it was written in that unit.
std::string limit_text_in(const job::Limit& limit, const Unit& unit);

}  // namespace pumpwright::report
