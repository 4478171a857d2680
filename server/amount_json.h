// Values as the page shows them: formatted here once in both systems, so that the page never computes a
// value.
#pragma once

#include <optional>
#include <string>

#include <nlohmann/json_fwd.hpp>

#include "job/judgement.h"
#include "job/text.h"

namespace pumpwright::server {

nlohmann::json text_json(const job::Text& text);       // {"en", "es"}
nlohmann::json text_or_null(const std::string& text);  // null for an empty one
nlohmann::json same_in_both(const std::string& text);  // {"en": text, "es": text}

// The units a value is shown in: the given one in its own system, a fitting one in the other.
struct ShownUnits {
  const Unit* inch;
  const Unit* metric;
};
ShownUnits units_beside(const Unit& unit, const AnyQuantity& value);

// {"si", "kind", "inch", "metric"}; digits as the instrument carries (graduation 0: four significant).
nlohmann::json amount_json(const AnyQuantity& value, const ShownUnits& units, double graduation_si);
// In units that suit the value.
nlohmann::json amount_json(const AnyQuantity& value);
// "0.30 thou", two significant digits; a half width, without its sign.
nlohmann::json doubt_json(Kind kind, double half_width_si, const ShownUnits& units);

}  // namespace pumpwright::server
