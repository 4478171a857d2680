#include "cli/fit_question.h"

namespace pumpwright {
namespace {

constexpr double coverage = 2;  // standard uncertainties either side of a measured size

SizeLimits widened(const FitSize& size) {
  if (!size.measured) return size.limits;
  const Length reach = coverage * size.measured->standard_uncertainty;
  return {.smallest = size.measured->value - reach, .largest = size.measured->value + reach};
}

PressFinding pressed(const FitQuestion& q, Length interference) {
  const auto& press = *q.press;
  const PressFit fit{.contact_diameter = q.shaft.nominal,
                     .hub_outside = press.hub_outside,
                     .shaft_bore = press.shaft_bore,
                     .engaged_length = press.length,
                     .interference = interference,
                     .hub = press.hub.elastic,
                     .shaft = press.shaft.elastic,
                     .friction = press.friction};
  const ShrinkAssembly shrink{.contact_diameter = q.shaft.nominal,
                              .interference = interference,
                              .working_clearance = press.working_clearance,
                              .hub_expansion = press.hub.expansion,
                              .shaft_expansion = press.shaft.expansion,
                              .room = press.room,
                              .shaft = press.room};
  return {.interference = interference,
          .state = press_fit(fit),
          .hub_temperature = hub_temperature_to_assemble(shrink)};
}

std::string verdict_on(FitKind found, FitKind wanted) {
  if (found == wanted) return "pass";
  return found == FitKind::transition ? "unproven" : "fail";
}

}  // namespace

FitFinding answer(const FitQuestion& q) {
  FitFinding f;
  if (q.bore.measured && q.shaft.measured) {
    f.measured = fit_between(*q.bore.measured, *q.shaft.measured, coverage);
    f.range = f.measured->range;
  } else {
    f.range = fit_between(widened(q.bore), widened(q.shaft));
  }
  const Length least = -f.range.largest_clearance, most = -f.range.smallest_clearance;
  if (q.press && most.value() > 0) {
    if (least.value() > 0 && least < most) f.press.push_back(pressed(q, least));
    f.press.push_back(pressed(q, most));
  }
  if (q.wanted) f.verdict = verdict_on(f.range.kind, *q.wanted);
  return f;
}

}  // namespace pumpwright
