// Values as JSON output writes them: what is absent, unlimited or not a number is null.
#pragma once

#include <cmath>
#include <optional>

#include <nlohmann/json.hpp>

#include "engine/quantity/quantity.h"

namespace pumpwright {

using OrderedJson = nlohmann::ordered_json;

inline OrderedJson json_number(double value) {
  return std::isfinite(value) ? OrderedJson(value) : OrderedJson(nullptr);
}
inline OrderedJson json_number(const std::optional<double>& value) {
  return value ? json_number(*value) : OrderedJson(nullptr);
}
inline OrderedJson json_metres(const std::optional<Length>& length) {
  return length ? json_number(length->value()) : OrderedJson(nullptr);
}
inline OrderedJson json_degrees(const std::optional<Angle>& angle) {
  return angle ? json_number(degrees_of(*angle)) : OrderedJson(nullptr);
}

// Indented, one line break at the end; bytes that are no UTF-8 are replaced.
inline std::string json_text(const OrderedJson& json) {
  return json.dump(2, ' ', false, OrderedJson::error_handler_t::replace) + "\n";
}

}  // namespace pumpwright
