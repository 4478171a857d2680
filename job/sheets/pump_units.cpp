#include "job/sheets/pump_units.h"

#include <fmt/format.h>

#include "engine/quantity/format.h"

namespace pumpwright::job {
namespace {

constexpr int digits = 4;
constexpr int digits_of_doubt = 2;

std::string with_doubt(const std::string& value, const AnyQuantity& doubt, const Unit& unit) {
  return fmt::format("{} ± {}", value, format_significant(doubt, unit, digits_of_doubt));
}

}  // namespace

std::string PumpUnits::flow_text(double m3_s) const {
  return format_significant(cubic_metres_per_second(m3_s), *flow, digits);
}

std::string PumpUnits::head_text(double m) const {
  return format_significant(metres(m), *head, digits);
}

std::string PumpUnits::power_text(double w) const {
  return format_significant(watts(w), *power, digits);
}

std::string PumpUnits::diameter_text(double m) const {
  return format_decimals(metres(m), *diameter, diameter->symbol == "in" ? 3 : 1);
}

std::string PumpUnits::head_text(const hydraulics::Figure& f) const {
  return with_doubt(head_text(f.value), metres(expanded_95(f)), *head);
}

std::string PumpUnits::flow_text(const hydraulics::Figure& f) const {
  return with_doubt(flow_text(f.value), cubic_metres_per_second(expanded_95(f)), *flow);
}

std::string PumpUnits::power_text(const hydraulics::Figure& f) const {
  return with_doubt(power_text(f.value), watts(expanded_95(f)), *power);
}

PumpUnits units_of(const PumpTestSheet& sheet) {
  const bool inch = sheet.head_unit->symbol == "ft";
  return {sheet.flow_unit, sheet.head_unit, sheet.power_unit,
          &unit_with_symbol(inch ? "in" : "mm", Kind::length)};
}

std::string percent_text(double fraction, int decimals) {
  return fmt::format("{:.{}f} %", 100 * fraction, decimals);
}

std::string percent_text(const hydraulics::Figure& figure) {
  return fmt::format("{:.1f} % ± {:.1f} %", 100 * figure.value, 100 * expanded_95(figure));
}

std::string chance_text(double probability) {
  if (probability < 0.001) return "under 0.1 %";
  if (probability > 0.999) return "over 99.9 %";
  return fmt::format("{:.{}f} %", 100 * probability, probability < 0.1 || probability > 0.9 ? 1 : 0);
}

}  // namespace pumpwright::job
