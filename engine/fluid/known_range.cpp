#include "engine/fluid/known_range.h"

#include <string>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::fluid {
namespace {

std::string celsius(Temperature t) {
  return fmt::format("{:.6g} °C", celsius_of(t));
}

std::string fahrenheit(Temperature t) {
  return fmt::format("{:.6g} °F", celsius_of(t) * 9 / 5 + 32);
}

std::string bar(AbsolutePressure p) {
  return fmt::format("{:.7g} bar(a)", p.value.value() / 1e5);
}

[[noreturn]] void refuse_temperature(Temperature t, Temperature lowest, Temperature highest,
                                     std::string_view what) {
  throw BadInput({.field = "temperature",
                  .place = "",
                  .value = celsius(t),
                  .expected = fmt::format("{} to {} ({} to {}), the range of {}", celsius(lowest),
                                          celsius(highest), fahrenheit(lowest), fahrenheit(highest), what)});
}

[[noreturn]] void refuse_pressure(AbsolutePressure p, AbsolutePressure lowest, AbsolutePressure highest,
                                  std::string_view what) {
  throw BadInput({.field = "pressure",
                  .place = "",
                  .value = bar(p),
                  .expected = fmt::format("{} to {}, the range of {}", bar(lowest), bar(highest), what)});
}

}  // namespace

void require_temperature(Temperature t, Temperature lowest, Temperature highest, std::string_view what) {
  if (!(kelvin_of(t) >= kelvin_of(lowest) && kelvin_of(t) <= kelvin_of(highest)))
    refuse_temperature(t, lowest, highest, what);
}

void require_pressure(AbsolutePressure p, AbsolutePressure lowest, AbsolutePressure highest,
                      std::string_view what) {
  if (!(p.value >= lowest.value && p.value <= highest.value)) refuse_pressure(p, lowest, highest, what);
}

void require_liquid(const Liquid& liquid, Temperature t, AbsolutePressure p, AbsolutePressure highest) {
  const AbsolutePressure saturation = liquid.saturation_pressure(t);
  if (p.value >= (1 - saturated_within) * saturation.value && p.value <= highest.value) return;
  refuse_pressure(p, saturation, highest, fmt::format("liquid {} at {}", liquid.name(), celsius(t)));
}

}  // namespace pumpwright::fluid
