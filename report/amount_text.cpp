#include "report/amount_text.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/format.h"

namespace pumpwright::report {
namespace {

const Unit* first_unit(const job::Reading& reading) {
  if (const auto* value = std::get_if<job::ValueReading>(&reading.body))
    return value->values.empty() ? nullptr : value->values.front().unit;
  if (const auto* size = std::get_if<job::SizeReading>(&reading.body))
    return size->points.empty() ? nullptr : size->points.front().diameter.unit;
  if (const auto* sweep = std::get_if<job::SweepReading>(&reading.body))
    return sweep->points.empty() ? nullptr : sweep->points.front().reading.unit;
  return nullptr;
}

bool fits(const Unit* unit, Kind kind) {
  return unit != nullptr && unit->kind == kind;
}

}  // namespace

const Unit* unit_for(const job::Check& check, const job::Reading* reading, const job::JudgedReading& judged) {
  for (const job::Limit& limit : check.limits)
    for (const auto& bound : {limit.upper, limit.lower})
      if (bound && fits(bound->unit, check.quantity)) return bound->unit;
  if (reading != nullptr) {
    const Unit* unit = first_unit(*reading);
    if (fits(unit, check.quantity)) return unit;
  }
  const double si = judged.value ? judged.value->si() : 0;
  return &suitable_unit(check.quantity, si, System::metric);
}

std::string value_text(const AnyQuantity& value, const Unit& unit, double graduation_si) {
  if (graduation_si > 0) return format_decimals(value, unit, decimals_for_graduation(graduation_si, unit));
  return format_significant(value, unit, 4);
}

std::string metric_text(const AnyQuantity& value, const Unit& unit, double graduation_si) {
  if (unit.system != System::inch) return {};
  const Unit& metric = value.kind() == Kind::length ? unit_with_symbol("mm", Kind::length)
                                                    : suitable_unit(value.kind(), value.si(), System::metric);
  return value_text(value, metric, graduation_si);
}

std::string plus_minus_text(double half_width_si, const Unit& unit) {
  const double number = step_from_si(half_width_si, unit);
  const int decimals = number > 0 ? std::max(0, 1 - static_cast<int>(std::floor(std::log10(number)))) : 0;
  const std::string space = unit.symbol.empty() || unit.symbol.front() == '%' ? "" : " ";
  return fmt::format("± {:.{}f}{}{}", number, std::min(decimals, 9), space, unit.symbol);
}

std::string written_text(const Written& written) {
  if (written.unit_was_written || written.unit == nullptr || written.unit->symbol.empty())
    return written.text;
  return fmt::format("{} {}", written.text, written.unit->symbol);
}

std::string limit_text(const job::Limit& limit) {
  if (limit.lower && limit.upper)
    return fmt::format("{} … {}", written_text(*limit.lower), written_text(*limit.upper));
  if (limit.upper) return "≤ " + written_text(*limit.upper);
  if (limit.lower) return "≥ " + written_text(*limit.lower);
  return {};
}

}  // namespace pumpwright::report
