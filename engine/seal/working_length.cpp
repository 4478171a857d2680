#include "engine/seal/working_length.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"

namespace pumpwright::seal {
namespace {

void require_valid(const ServiceMotion& motion) {
  const auto room = [](Length l, const char* field) {
    require_between(l.value(), 0, 0.1, field, "a length from 0 to 100 mm");
  };
  room(motion.float_shortening, "service/float_shortening");
  room(motion.float_lengthening, "service/float_lengthening");
  require_between(motion.growth_low.value(), -0.1, 0.1, "service/growth_low", "a length within 100 mm");
  require_between(motion.growth_high.value(), motion.growth_low.value(), 0.1, "service/growth_high",
                  "a length within 100 mm, not below the lowest growth");
}

void require_valid(const WorkingLengthCase& seal) {
  require_between(seal.required.value(), 1e-3, 1, "required", "a working length from 1 mm to 1 m");
  require_between(seal.rigid.value(), 0, seal.required.value(), "rigid",
                  "a length from 0 to the working length");
  require_that(std::isfinite(seal.lower_tolerance.value()) && std::isfinite(seal.upper_tolerance.value()) &&
                   seal.lower_tolerance <= seal.upper_tolerance,
               seal.upper_tolerance.value(), "tolerance", "an upper tolerance not below the lower one");
  require_valid(seal.service);
}

Link as_it_is(const LengthPart& part) {
  if (!part.measured) return part.drawing;
  return measured_link(part.drawing.name, part.drawing.coefficient, part.measured->value, part.measured->u);
}

Chain stack_of(const WorkingLengthCase& seal) {
  Chain chain;
  for (const LengthPart& part : seal.parts)
    chain.links.push_back(as_it_is(part));
  chain.lower_limit = seal.required + seal.lower_tolerance;
  chain.upper_limit = seal.required + seal.upper_tolerance;
  return chain;
}

double drawn_middle_m(const Link& drawing) {
  return drawing.nominal.value() + (drawing.lower_deviation + drawing.upper_deviation).value() / 2;
}

bool is_off_its_drawing(const LengthPart& part) {
  if (!part.measured) return false;
  const double off_m = part.measured->value.value() - part.drawing.nominal.value();
  const bool outside =
      off_m < part.drawing.lower_deviation.value() || off_m > part.drawing.upper_deviation.value();
  const double from_middle_m = part.measured->value.value() - drawn_middle_m(part.drawing);
  return outside && std::fabs(from_middle_m) > 2 * part.measured->u.value();
}

// Deviation of the whole length if `part` were as drawn.
double left_over_m(const LengthPart& part, double deviation_m) {
  return deviation_m -
         part.drawing.coefficient * (part.measured->value.value() - drawn_middle_m(part.drawing));
}

// Parts that explain the deviation, the one that leaves least over first.
std::vector<const LengthPart*> explaining(std::span<const LengthPart> parts, Length lower, Length upper,
                                          double deviation_m) {
  std::vector<const LengthPart*> found;
  for (const LengthPart& part : parts) {
    if (!is_off_its_drawing(part)) continue;
    const double left_m = left_over_m(part, deviation_m);
    if (left_m >= lower.value() && left_m <= upper.value()) found.push_back(&part);
  }
  std::stable_sort(found.begin(), found.end(), [&](const LengthPart* a, const LengthPart* b) {
    return std::fabs(left_over_m(*a, deviation_m)) < std::fabs(left_over_m(*b, deviation_m));
  });
  return found;
}

SpringForce spring_at(const WorkingLengthCase& seal, const Measured<Length>& length) {
  return force_at(seal.spring, {length.value - seal.rigid, length.u});
}

ServiceLength in_service(const WorkingLengthCase& seal, const Measured<Length>& installed) {
  const ServiceMotion& motion = seal.service;
  ServiceLength s;
  s.shortest = {installed.value + motion.growth_low - motion.float_shortening, installed.u};
  s.longest = {installed.value + motion.growth_high + motion.float_lengthening, installed.u};
  s.at_shortest = spring_at(seal, s.shortest);
  s.at_longest = spring_at(seal, s.longest);
  return s;
}

}  // namespace

LengthCorrection length_correction(std::span<const LengthPart> parts, Length lower_tolerance,
                                   Length upper_tolerance, Length deviation) {
  LengthCorrection c;
  c.change = -deviation;
  const auto found = explaining(parts, lower_tolerance, upper_tolerance, deviation.value());
  if (!found.empty()) {
    const LengthPart& first = *found.front();
    c.part = first.drawing.name;
    c.part_deviation = first.measured->value - first.drawing.nominal;
    c.part_missing = first.measured->value <= 2.0 * first.measured->u && first.drawing.nominal.value() > 0;
    c.left_over = metres(left_over_m(first, deviation.value()));
    for (std::size_t i = 1; i < found.size(); ++i)
      c.others.push_back(found[i]->drawing.name);
  }
  const auto shim =
      std::find_if(parts.begin(), parts.end(), [](const LengthPart& part) { return part.is_shim; });
  if (shim != parts.end()) {
    c.shim = shim->drawing.name;
    c.shim_change = c.change / shim->drawing.coefficient;
  }
  return c;
}

WorkingLength working_length(const WorkingLengthCase& seal) {
  require_valid(seal);
  const Chain stack = stack_of(seal);
  WorkingLength w;
  w.stack = analyse(stack);
  // A t link of two degrees of freedom or fewer has no deviation; its tolerance bounds it then.
  w.installed = {w.stack.mean, w.stack.sd.value_or(w.stack.rss_half_width)};
  w.deviation = w.installed.value - seal.required;
  w.verdict = decide(Limit<Length>{*stack.lower_limit, *stack.upper_limit}, w.installed, seal.rule);
  w.spring = spring_at(seal, w.installed);
  w.as_required = spring_at(seal, {seal.required, metres(0)});
  if (w.verdict.outcome != Outcome::pass)
    w.correction = length_correction(seal.parts, seal.lower_tolerance, seal.upper_tolerance, w.deviation);
  w.service = in_service(seal, w.installed);
  return w;
}

GrowthRange growth_of(std::span<const WarmingPart> parts) {
  GrowthRange range{metres(0), metres(0)};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const WarmingPart& part = parts[i];
    const std::string place = fmt::format("warming/{}", i);
    require_between(part.coefficient, -10, 10, place + "/coefficient", "a coefficient within 10");
    require_between(part.length.value(), 0, 10, place + "/length", "a length from 0 to 10 m");
    require_between(part.expansion.value(), 0, 1e-3, place + "/expansion",
                    "a coefficient from 0 to 1e-3 1/K");
    require_between(part.warming_low.value(), -500, 500, place + "/warming_low", "a difference within 500 K");
    require_between(part.warming_high.value(), part.warming_low.value(), 500, place + "/warming_high",
                    "a difference within 500 K, not below the lowest");
    const double per_k_m = part.coefficient * part.expansion.value() * part.length.value();
    const double a_m = per_k_m * part.warming_low.value();
    const double b_m = per_k_m * part.warming_high.value();
    range.low += metres(std::min(a_m, b_m));
    range.high += metres(std::max(a_m, b_m));
  }
  return range;
}

}  // namespace pumpwright::seal
