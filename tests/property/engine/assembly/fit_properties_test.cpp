#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/assembly/fastener.h"
#include "engine/assembly/interference.h"
#include "engine/assembly/iso286.h"
#include "engine/assembly/key.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::testing {
namespace {

Length any_size() {
  return metres(*rc::gen::inRange(1, 250'001) * 1e-6);
}

RC_GTEST_PROP(FitProperty, EveryMeasuredPairInsideItsLimitsLiesInsideTheFit, ()) {
  const Length basic = any_size();
  const SizeLimits bore = limits_of(basic, {"H", 7});
  const SizeLimits shaft =
      limits_of(basic, {*rc::gen::element<std::string>("f", "g", "js", "n", "p", "s"), 6});
  RC_PRE(shaft.smallest > metres(0));  // at a micrometre or two a class can reach below nothing
  const double a = *rc::gen::inRange(0, 101) * 0.01;
  const double b = *rc::gen::inRange(0, 101) * 0.01;
  const Length clearance = bore.smallest + a * (bore.largest - bore.smallest) - shaft.smallest -
                           b * (shaft.largest - shaft.smallest);
  const FitRange fit = fit_between(bore, shaft);
  RC_ASSERT(clearance >= fit.smallest_clearance - metres(1e-15));
  RC_ASSERT(clearance <= fit.largest_clearance + metres(1e-15));
}

RC_GTEST_PROP(FitProperty, GradesGrowWithSizeAndNumber, ()) {
  const Length small = any_size();
  const Length large = any_size();
  RC_PRE(small < large);
  const int grade = *rc::gen::inRange(5, 11);
  RC_ASSERT(standard_tolerance(small, grade).width <= standard_tolerance(large, grade).width);
  RC_ASSERT(standard_tolerance(small, grade).width < standard_tolerance(small, grade + 1).width);
}

RC_GTEST_PROP(FitProperty, TheParserNeverCrashesAndNeverGuesses, (const std::string& text)) {
  try {
    const FitDesignation fit = parse_fit(text, "fit");
    RC_ASSERT(fit.hole.has_value() || fit.shaft.has_value());
  } catch (const BadInput&) {
  }
}

RC_GTEST_PROP(FitProperty, DesignationsAreReadBack, ()) {
  const int size_um = *rc::gen::inRange(1, 250'001);
  const std::string letters = *rc::gen::element<std::string>("H", "JS", "g", "js", "K", "p");
  const int grade = *rc::gen::inRange(1, 100);
  const std::string digits =
      std::to_string(1'000'000 + size_um);  // 1 250 000: three places before, three after
  const std::string text =
      digits.substr(1, 3) + "." + digits.substr(4) + " " + letters + std::to_string(grade);
  const FitDesignation fit = parse_fit(text, "fit");
  const ToleranceClass& c = fit.hole ? *fit.hole : *fit.shaft;
  RC_ASSERT(std::fabs(fit.basic.value() - size_um * 1e-6) < 1e-12);
  RC_ASSERT(c.letters == letters);
  RC_ASSERT(c.grade == grade);
}

RC_GTEST_PROP(PressFitProperty, PressureIsProportionalToInterferenceAndHubTensionExceedsIt, ()) {
  PressFit fit;
  fit.contact_diameter = metres(*rc::gen::inRange(5, 200) * 1e-3);
  fit.hub_outside = fit.contact_diameter * (1 + *rc::gen::inRange(1, 400) * 0.01);
  fit.shaft_bore = fit.contact_diameter * (*rc::gen::inRange(0, 95) * 0.01);
  fit.engaged_length = metres(0.03);
  fit.interference = fit.contact_diameter * (*rc::gen::inRange(1, 400) * 1e-5);
  fit.hub = {pascals(*rc::gen::inRange(60, 220) * 1e9), *rc::gen::inRange(0, 49) * 0.01};
  fit.shaft = {pascals(*rc::gen::inRange(60, 220) * 1e9), *rc::gen::inRange(0, 49) * 0.01};
  const PressFitState once = press_fit(fit);
  fit.interference *= 2.0;
  const PressFitState twice = press_fit(fit);
  RC_ASSERT(std::fabs(twice.contact / once.contact - 2) < 1e-12);
  RC_ASSERT(once.hub_hoop_at_bore > once.contact);
  RC_ASSERT(once.hub_hoop_at_bore > once.hub_hoop_outside);
  RC_ASSERT(once.shaft_hoop_bore <= once.shaft_hoop_surface);
  // Radial displacements of hub and shaft add up to the interference.
  const double d = fit.contact_diameter.value();
  const double hub = d / fit.hub.youngs_modulus.value() *
                     (once.hub_hoop_at_bore.value() + fit.hub.poisson * once.contact.value());
  const double shaft = d / fit.shaft.youngs_modulus.value() *
                       (once.shaft_hoop_surface.value() + fit.shaft.poisson * once.contact.value());
  RC_ASSERT(std::fabs((hub - shaft) / (fit.interference.value() / 2) - 1) < 1e-9);
}

// A key of any length the check calls good is good, and just beyond either end it is not.
RC_GTEST_PROP(KeyProperty, TheRangeOfGoodLengthsIsExactlyThat, ()) {
  const auto mm = [](int low, int high) { return metres(*rc::gen::inRange(low, high) * 1e-3); };
  KeyPlace place;
  place.seat_start = mm(0, 10);
  place.seat_end = place.seat_start + mm(10, 80);
  place.hub_outer_face = mm(0, 15);
  place.hub_keyway_end = place.hub_outer_face + mm(10, 60);
  if (*rc::gen::arbitrary<bool>()) place.sleeve_face = place.hub_keyway_end + mm(0, 3);
  place.sleeve_slot = mm(0, 10);
  place.end_gap = metres(*rc::gen::inRange(0, 15) * 1e-4);
  const double wanted = *rc::gen::element(0.5, 0.8, 0.95);
  place.key_length = metres(0.02);
  const KeyLengthCheck range = check_key_length(place, wanted);
  RC_PRE(range.shortest_good.has_value());
  RC_ASSERT(*range.shortest_good <= *range.longest_good + metres(1e-9));
  const auto good = [&](Length length) {
    place.key_length = length;
    return check_key_length(place, wanted).faults.empty();
  };
  RC_ASSERT(good(*range.shortest_good));
  RC_ASSERT(good(*range.longest_good));
  RC_ASSERT(good((*range.shortest_good + *range.longest_good) / 2.0));
  RC_ASSERT(!good(*range.shortest_good - metres(1e-5)));
  RC_ASSERT(!good(*range.longest_good + metres(1e-5)));
}

RC_GTEST_PROP(FastenerProperty, WiderFrictionWidensThePreload, ()) {
  const double low = *rc::gen::inRange(5, 30) * 0.01;
  const double high = low + *rc::gen::inRange(0, 30) * 0.01;
  const double more = *rc::gen::inRange(0, 10) * 0.01;
  const AppliedTorque torque{newton_metres(*rc::gen::inRange(1, 500)), *rc::gen::inRange(0, 30) * 0.01};
  const PreloadRange narrow = preload_from_torque(torque, metres(0.012), {low, high});
  const PreloadRange wide = preload_from_torque(torque, metres(0.012), {low, high + more});
  RC_ASSERT(narrow.smallest <= narrow.largest);
  RC_ASSERT(wide.smallest <= narrow.smallest);
  RC_ASSERT(wide.largest == narrow.largest);
}

}  // namespace
}  // namespace pumpwright::testing
