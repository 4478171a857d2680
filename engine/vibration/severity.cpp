#include "engine/vibration/severity.h"

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::vibration {
namespace {

constexpr Velocity mm_s(double v) {
  return Velocity::from_value(v / 1000);
}

}  // namespace

ZoneLimits zone_limits(PumpCategory category, Power power) {
  if (!(power.value() > 1000))
    throw BadInput({"power", "", fmt::format("{:g} W", power.value()), "a power over 1 kW"});
  const bool small = power.value() <= 200e3;
  if (category == PumpCategory::one)
    return small ? ZoneLimits{mm_s(2.5), mm_s(4.0), mm_s(6.6)} : ZoneLimits{mm_s(3.5), mm_s(5.0), mm_s(7.6)};
  return small ? ZoneLimits{mm_s(3.2), mm_s(5.1), mm_s(8.5)} : ZoneLimits{mm_s(4.2), mm_s(6.1), mm_s(9.5)};
}

Zone zone_of(Velocity rms, const ZoneLimits& limits) {
  if (rms <= limits.a_to_b) return Zone::a;
  if (rms <= limits.b_to_c) return Zone::b;
  return rms <= limits.c_to_d ? Zone::c : Zone::d;
}

std::string_view word_for(Zone zone) {
  switch (zone) {
    case Zone::a:
      return "A";
    case Zone::b:
      return "B";
    case Zone::c:
      return "C";
    case Zone::d:
      break;
  }
  return "D";
}

}  // namespace pumpwright::vibration
