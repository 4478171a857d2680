#include "job/sheets/balance_units.h"

#include <fmt/format.h>

namespace pumpwright::job {

bool in_inches(const BalanceSheet& sheet) {
  return sheet.mass.unit->system == System::inch;
}

std::string unbalance_text(const BalanceSheet& sheet, rotor::Unbalance amount) {
  constexpr double ounce_inch_kg_m = 0.45359237 / 16 * 0.0254;
  constexpr double gram_millimetre_kg_m = 1e-6;
  const bool inch = in_inches(sheet);
  const double number = amount.value() / (inch ? ounce_inch_kg_m : gram_millimetre_kg_m);
  const std::string shown = number < 1000 ? fmt::format("{:.3g}", number) : fmt::format("{:.0f}", number);
  return shown + (inch ? " oz·in" : " g·mm");
}

}  // namespace pumpwright::job
