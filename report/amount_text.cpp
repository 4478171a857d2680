#include "report/amount_text.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/format.h"

namespace pumpwright::report {
namespace {

// Decimals that show two significant digits of a doubt.
int decimals_of_doubt(double number) {
  return number > 0 ? std::clamp(1 - static_cast<int>(std::floor(std::log10(number))), 0, 9) : 0;
}

// A bound in another unit: the digits its last written place is worth there, without trailing zeros.
std::string converted(const Written& bound, const Unit& unit) {
  std::string text =
      format_decimals(bound.quantity(), unit, decimals_for_graduation(bound.last_place_si, unit));
  const std::size_t end = text.find(' ');
  std::string number = text.substr(0, end);
  if (number.find('.') != std::string::npos) {
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') number.pop_back();
  }
  return end == std::string::npos ? number : number + text.substr(end);
}

}  // namespace

std::string value_text(const AnyQuantity& value, const Unit& unit, double graduation_si) {
  if (graduation_si > 0) return format_decimals(value, unit, decimals_for_graduation(graduation_si, unit));
  return format_significant(value, unit, 4);
}

const Unit* metric_beside(const Unit& unit, const AnyQuantity& value) {
  if (unit.system != System::inch) return nullptr;
  if (value.kind() == Kind::length) return &unit_with_symbol("mm", Kind::length);
  return &suitable_unit(value.kind(), value.si(), System::metric);
}

std::string metric_text(const AnyQuantity& value, const Unit& unit, double graduation_si) {
  const Unit* metric = metric_beside(unit, value);
  return metric == nullptr ? std::string() : value_text(value, *metric, graduation_si);
}

std::string doubtful_text(const AnyQuantity& value, const Unit& unit, double half_width_si) {
  const double number = step_from_si(half_width_si, unit);
  return number > 0 ? format_decimals(value, unit, decimals_of_doubt(number)) : value_text(value, unit, 0);
}

std::string plus_minus_text(double half_width_si, const Unit& unit) {
  const double number = step_from_si(half_width_si, unit);
  const std::string space = unit.symbol.empty() || unit.symbol.front() == '%' ? "" : " ";
  return fmt::format("± {:.{}f}{}{}", number, decimals_of_doubt(number), space, unit.symbol);
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

std::string limit_text_in(const job::Limit& limit, const Unit& unit) {
  const auto text = [&](const std::optional<Written>& bound) {
    return bound && bound->unit != &unit && bound->unit != nullptr && bound->unit->kind == unit.kind &&
                   bound->last_place_si > 0
               ? converted(*bound, unit)
               : std::string();
  };
  const std::string lower = text(limit.lower), upper = text(limit.upper);
  if (!lower.empty() && !upper.empty()) return lower + " … " + upper;
  if (!upper.empty()) return "≤ " + upper;
  return lower.empty() ? lower : "≥ " + lower;
}

}  // namespace pumpwright::report
