#include "engine/metrology/temperature.h"

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr double reference_k = 293.15;  // 20 °C, ISO 1
constexpr double celsius_zero_k = 273.15;

[[noreturn]] void refuse(const std::string& field, const std::string& value, const char* expected) {
  throw BadInput({.field = field, .place = "", .value = value, .expected = expected});
}

bool not_negative(double v) {
  return std::isfinite(v) && v >= 0;
}

void validate(const Warmth& w, const char* whose) {
  const double at_c = kelvin_of(w.at) - celsius_zero_k;
  if (!(at_c >= -100 && at_c <= 500))
    refuse(fmt::format("{} temperature", whose), fmt::format("{:.6g} degC", at_c), "-100 degC to 500 degC");
  if (!(w.alpha.value() >= 0 && w.alpha.value() <= 1e-3))
    refuse(fmt::format("{} expansion", whose), fmt::format("{:.6g} 1/K", w.alpha.value()), "0 to 1e-3 1/K");
  if (!not_negative(w.u_at.value()))
    refuse(fmt::format("{} temperature uncertainty", whose), fmt::format("{:.6g} K", w.u_at.value()),
           "zero or more");
  if (!not_negative(w.u_alpha.value()))
    refuse(fmt::format("{} expansion uncertainty", whose), fmt::format("{:.6g} 1/K", w.u_alpha.value()),
           "zero or more");
}

// Growth factor since 20 °C, and its relative standard uncertainty.
struct Growth {
  double factor, u_relative;
};

Growth growth_of(const Warmth& w) {
  const double step_k = kelvin_of(w.at) - reference_k;
  const double factor = 1 + w.alpha.value() * step_k;
  const double u = std::hypot(step_k * w.u_alpha.value(), w.alpha.value() * w.u_at.value());
  return {factor, u / factor};
}

}  // namespace

SizeAtReference at_reference_temperature(const ReadSize& read, const Warmth& part,
                                         const std::optional<Warmth>& scale) {
  const double read_m = read.value.value();
  if (!std::isfinite(read_m)) refuse("size", fmt::format("{} m", read_m), "a finite length");
  if (!not_negative(read.u.value()))
    refuse("size uncertainty", fmt::format("{} m", read.u.value()), "zero or more");
  validate(part, "part");
  if (scale) validate(*scale, "instrument");

  const Growth of_part = growth_of(part);
  const Growth of_scale = scale ? growth_of(*scale) : Growth{1, 0};
  const double value_m = read_m * of_scale.factor / of_part.factor;
  const double from_reading_m = read.u.value() * of_scale.factor / of_part.factor;
  const double from_warmth_m = value_m * std::hypot(of_part.u_relative, of_scale.u_relative);
  return {.value = metres(value_m),
          .u = metres(std::hypot(from_reading_m, from_warmth_m)),
          .correction = metres(value_m - read_m)};
}

}  // namespace pumpwright
