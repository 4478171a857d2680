#include "engine/seal/vapour_margin.h"

#include <algorithm>
#include <cmath>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"
#include "engine/seal/atmosphere.h"

namespace pumpwright::seal {
namespace {

void require_valid(const MarginRule& rule) {
  require_between(rule.least_difference.value(), 0, 1e7, "margin rule/difference",
                  "a pressure from 0 to 10 MPa");
  require_between(rule.least_ratio, 1, 10, "margin rule/ratio", "a ratio from 1 to 10");
}

// A liquid may know when it boils further than its other properties: it is asked first.
Temperature boiling_at(const fluid::Liquid& liquid, AbsolutePressure p) {
  try {
    return liquid.saturation_temperature(p);
  } catch (const BadInput&) {
    const bool low = p.value <= liquid.saturation_pressure(liquid.lowest_temperature()).value;
    return low ? liquid.lowest_temperature() : liquid.highest_temperature();
  }
}

double least_chamber_pa(double vapour_pa, const MarginRule& rule) {
  const double by_difference_pa = vapour_pa + rule.least_difference.value();
  if (!rule.ratio_suffices) return by_difference_pa;
  return std::min(by_difference_pa, rule.least_ratio * vapour_pa);
}

}  // namespace

MarginClass margin_class(double chamber_pa, double vapour_pa, const MarginRule& rule) {
  if (chamber_pa <= vapour_pa) return MarginClass::boils;
  if (chamber_pa - vapour_pa >= rule.least_difference.value()) return MarginClass::by_difference;
  return chamber_pa >= rule.least_ratio * vapour_pa ? MarginClass::by_ratio : MarginClass::too_small;
}

bool is_enough(MarginClass margin, const MarginRule& rule) {
  return margin == MarginClass::by_difference || (rule.ratio_suffices && margin == MarginClass::by_ratio);
}

VapourMargin vapour_margin(const fluid::Liquid& liquid, AbsolutePressure chamber, Temperature t,
                           const MarginRule& rule) {
  require_valid(rule);
  require_that(std::isfinite(chamber.value.value()) && chamber.value.value() > 0, chamber.value.value(),
               "chamber pressure", "an absolute pressure over 0");
  VapourMargin m;
  m.chamber = chamber;
  m.vapour = liquid.saturation_pressure(t);
  m.difference = chamber.value - m.vapour.value;
  m.ratio = chamber.value / m.vapour.value;
  m.boiling = boiling_at(liquid, chamber);
  m.to_boiling = m.boiling - t;
  m.margin = margin_class(chamber.value.value(), m.vapour.value.value(), rule);
  m.enough = is_enough(m.margin, rule);
  return m;
}

AbsolutePressure least_chamber_pressure(const fluid::Liquid& liquid, Temperature t, const MarginRule& rule) {
  require_valid(rule);
  return {pascals(least_chamber_pa(liquid.saturation_pressure(t).value.value(), rule))};
}

GaugePressure least_suction(AbsolutePressure chamber, const SuctionRequest& request) {
  require_between(request.rise.value(), 0, 50e6, "pressure rise",
                  "discharge less suction pressure, 0 to 50 MPa");
  require_between(request.share, 0, 1, "chamber share", "a share from 0 to 1");
  const double suction_pa = chamber.value.value() - request.share * request.rise.value();
  return gauge_at({pascals(std::max(0.0, suction_pa))}, request.altitude);
}

const char* word_for(MarginClass margin) {
  switch (margin) {
    case MarginClass::boils:
      return "boils";
    case MarginClass::too_small:
      return "too_small";
    case MarginClass::by_ratio:
      return "by_ratio";
    case MarginClass::by_difference:
      return "by_difference";
  }
  return "";
}

}  // namespace pumpwright::seal
