#include "server/amount_json.h"

#include <nlohmann/json.hpp>

#include "report/amount_text.h"

namespace pumpwright::server {

using nlohmann::json;

json text_json(const job::Text& text) {
  return {{"en", text.en}, {"es", text.es}};
}

json text_or_null(const std::string& text) {
  return text.empty() ? json(nullptr) : json(text);
}

json same_in_both(const std::string& text) {
  return {{"en", text}, {"es", text}};
}

ShownUnits units_beside(const Unit& unit, const AnyQuantity& value) {
  if (unit.system == System::inch) {
    const Unit* metric = report::metric_beside(unit, value);
    return {&unit, metric == nullptr ? &unit : metric};
  }
  if (unit.system == System::metric) return {&suitable_unit(value.kind(), value.si(), System::inch), &unit};
  return {&unit, &unit};
}

json amount_json(const AnyQuantity& value, const ShownUnits& units, double graduation_si) {
  return {{"si", value.si()},
          {"kind", info(value.kind()).name},
          {"inch", report::value_text(value, *units.inch, graduation_si)},
          {"metric", report::value_text(value, *units.metric, graduation_si)}};
}

json amount_json(const AnyQuantity& value) {
  return amount_json(value,
                     {&suitable_unit(value.kind(), value.si(), System::inch),
                      &suitable_unit(value.kind(), value.si(), System::metric)},
                     0);
}

json doubt_json(Kind kind, double half_width_si, const ShownUnits& units) {
  // The page writes the sign where it needs one.
  const auto text = [&](const Unit& unit) {
    constexpr std::string_view sign = "± ";
    return report::plus_minus_text(half_width_si, unit).substr(sign.size());
  };
  return {{"si", half_width_si},
          {"kind", info(kind).name},
          {"inch", text(*units.inch)},
          {"metric", text(*units.metric)}};
}

}  // namespace pumpwright::server
