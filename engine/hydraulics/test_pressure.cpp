#include "engine/hydraulics/test_pressure.h"

#include <algorithm>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::hydraulics {
namespace {

double needed_pa(const std::optional<GaugePressure>& given, const std::string& field) {
  if (!given) throw BadInput({field, "", "nothing", "the pressure that the chosen rule starts from"});
  require_between(given->value.value(), 1, 1e8, field, "a gauge pressure over 0, at most 100 MPa");
  return given->value.value();
}

double by_rule_pa(HoldRule rule, const HoldBasis& basis) {
  switch (rule) {
    case HoldRule::rated_and_shutoff:
      return std::max(1.5 * needed_pa(basis.rated, "rated"), 1.25 * needed_pa(basis.shutoff, "shutoff"));
    case HoldRule::mawp_150:
      return 1.5 * needed_pa(basis.mawp, "mawp");
    case HoldRule::mawp_110_thermoset:
      return 1.1 * needed_pa(basis.mawp, "mawp");
    case HoldRule::own:
      break;
  }
  return needed_pa(basis.own, "own");
}

const char* source_of(HoldRule rule) {
  switch (rule) {
    case HoldRule::rated_and_shutoff:
      return "rule of the Hydraulic Institute, as restated in a public article on hydrostatic tests";
    case HoldRule::mawp_150:
    case HoldRule::mawp_110_thermoset:
      return "ASME B73.1-2012, as restated in a public test procedure";
    case HoldRule::own:
      break;
  }
  return "the shop's own rule";
}

}  // namespace

TestPressure test_pressure(HoldRule rule, const HoldBasis& basis, const std::vector<RatedPart>& parts) {
  TestPressure t;
  t.by_rule = {pascals(by_rule_pa(rule, basis))};
  t.used = t.by_rule;
  t.source = source_of(rule);
  if (parts.empty()) throw BadInput({"parts", "", "none", "the parts under pressure with their ratings"});
  for (const RatedPart& part : parts) {
    require_between(part.rating.value.value(), 1, 1e8, "rating", "a gauge pressure over 0, at most 100 MPa");
    if (part.rating.value >= t.used.value) continue;
    t.used = part.rating;
    t.limited_by = part.name;
  }
  return t;
}

HoldTime hold_time(HoldRule rule, std::optional<Power> power) {
  switch (rule) {
    case HoldRule::rated_and_shutoff: {
      const bool large = power && power->value() > 75e3;
      return {seconds(large ? 600 : 180), "ANSI/HI 14.6: 3 min up to 75 kW, 10 min above",
              HowKnown::remembered};
    }
    case HoldRule::mawp_150:
    case HoldRule::mawp_110_thermoset:
      return {seconds(600), "ASME B73.1-2012, as restated in a public test procedure", HowKnown::read};
    case HoldRule::own:
      break;
  }
  return {seconds(600), "the shop's own rule: 10 min unless stated", HowKnown::read};
}

const char* word_for(HoldRule rule) {
  switch (rule) {
    case HoldRule::rated_and_shutoff:
      return "rated-and-shutoff";
    case HoldRule::mawp_150:
      return "mawp-1.5";
    case HoldRule::mawp_110_thermoset:
      return "mawp-1.1-thermoset";
    case HoldRule::own:
      return "own";
  }
  return "";
}

}  // namespace pumpwright::hydraulics
