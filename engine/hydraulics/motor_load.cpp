#include "engine/hydraulics/motor_load.h"

#include <algorithm>
#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::hydraulics {
namespace {

constexpr std::array<double, 6> factor_at_percent{1, 1, 0.95, 0.90, 0.82, 0.75};

}  // namespace

double load_by_power(Power input, Power rated, double rated_efficiency) {
  require_between(input.value(), 0, 1e9, "input_power", "a power not below 0");
  require_that(rated.value() > 0, rated.value(), "rated_power", "a power over 0");
  require_between(rated_efficiency, 0.05, 1, "rated_efficiency", "an efficiency from 5 % to 100 %");
  return input / (rated / rated_efficiency);
}

double load_by_slip(Speed synchronous, Speed measured, Speed nameplate) {
  require_that(nameplate.value() > 0 && nameplate < synchronous, nameplate.value(), "speed",
               "a nameplate speed below the synchronous one");
  require_between(measured.value(), 0, synchronous.value(), "speed", "a speed not above the synchronous one");
  return (synchronous - measured) / (synchronous - nameplate);
}

double load_by_current(Current measured, Current nameplate, Current no_load) {
  require_that(nameplate.value() > 0, nameplate.value(), "rated_current", "a current over 0");
  require_that(no_load.value() > 0 && no_load < nameplate, no_load.value(), "no_load_current",
               "a no-load current below the nameplate's");
  require_that(measured >= no_load * 0.5, measured.value(), "current",
               "a current not below half the no-load one");
  return (2.0 * measured - no_load) / (2.0 * nameplate - no_load);
}

double voltage_unbalance(const std::array<Voltage, 3>& lines) {
  double sum = 0;
  for (const Voltage& v : lines) {
    require_between(v.value(), 1, 1e5, "voltage", "a voltage between lines from 1 V to 100 kV");
    sum += v.value();
  }
  const double mean = sum / 3;
  double worst = 0;
  for (const Voltage& v : lines)
    worst = std::max(worst, std::abs(v.value() - mean));
  return worst / mean;
}

double unbalance_derating(double unbalance) {
  require_that(unbalance >= 0, unbalance, "voltage_unbalance", "an unbalance not below 0");
  const double percent = 100 * std::min(unbalance, most_voltage_unbalance);
  const auto below = std::min<std::size_t>(static_cast<std::size_t>(percent), factor_at_percent.size() - 2);
  const double share = percent - static_cast<double>(below);
  return factor_at_percent[below] + share * (factor_at_percent[below + 1] - factor_at_percent[below]);
}

}  // namespace pumpwright::hydraulics
