#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/seal/atmosphere.h"
#include "engine/seal/chamber_pressure.h"
#include "engine/seal/face_load.h"
#include "engine/seal/spring.h"
#include "engine/seal/vapour_margin.h"
#include "tests/support/given_liquid.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10'001) * 1e-4;
}

seal::Faces any_faces() {
  const double inner_m = between(0.01, 0.1);
  const double outer_m = inner_m + between(0.002, 0.03);
  return {metres(outer_m), metres(inner_m), metres(between(inner_m, outer_m)),
          *rc::gen::element(seal::PressureSide::outside, seal::PressureSide::inside)};
}

TEST(LoadProperty, ForcesAndPressuresSayTheSame) {
  hold("balance", [] {
    seal::FaceLoadCase c;
    c.faces = any_faces();
    c.across = pascals(between(0, 2e6));
    c.spring = newtons(between(0, 500));
    c.gradient_factor = between(0, 1);
    c.speed = radians_per_second(between(0, 400));
    const seal::FaceLoad load = seal::face_load(c);
    const double area_m2 = seal::face_area(c.faces).value();
    const double pressure_pa =
        c.across.value() * (seal::balance_ratio(c.faces) - c.gradient_factor) + load.spring_pressure.value();
    RC_ASSERT(std::fabs(load.net_pressure.value() - pressure_pa) < 1e-6 * (1 + c.across.value()));
    RC_ASSERT(std::fabs((load.closing - load.opening - load.net).value()) < 1e-9);
    RC_ASSERT(load.heat.value() >= 0);
    const double power_w = load.pv.value() * c.friction * area_m2;  // PV x f x A
    RC_ASSERT(std::fabs(power_w - load.heat.value()) <= 1e-9 * (1 + power_w));
  });
}

TEST(LoadProperty, TheGradientFactorsOfBothSidesAddToOne) {
  hold("sides", [] {
    seal::Faces faces = any_faces();
    faces.pressure = seal::PressureSide::outside;
    const double outside = seal::parallel_gradient_factor(faces);
    faces.pressure = seal::PressureSide::inside;
    RC_ASSERT(std::fabs(outside + seal::parallel_gradient_factor(faces) - 1) < 1e-12);
    RC_ASSERT(outside > 0.5 && outside < 1);
  });
}

TEST(LoadProperty, ALongerSpringPushesLess) {
  hold("spring", [] {
    const seal::Spring spring = seal::spring_of_nominal(
        {metres(0.03), metres(between(0, 1e-4))}, {newtons(between(1, 200)), newtons(1)},
        {newtons_per_metre(between(500, 50'000)), newtons_per_metre(100)});
    const double a_m = between(0.01, 0.1);
    const double b_m = a_m + between(1e-5, 0.02);
    const auto at = [&](double m) { return seal::force_at(spring, {metres(m), metres(1e-5)}); };
    RC_ASSERT(at(b_m).force.value <= at(a_m).force.value);
    RC_ASSERT(at(a_m).low <= at(a_m).force.value && at(a_m).force.value <= at(a_m).high);
    RC_ASSERT((at(a_m).state == seal::SpringState::slack) == (at(a_m).compression.value() <= 0));
  });
}

TEST(LoadProperty, TheLeastChamberPressureIsWhereEnoughBegins) {
  const GivenLiquid liquid;
  hold("margin", [&] {
    const Temperature t = kelvin(between(275, 500));
    seal::MarginRule rule;
    rule.least_difference = pascals(between(1e3, 5e5));
    rule.least_ratio = between(1.01, 2);
    rule.ratio_suffices = *rc::gen::arbitrary<bool>();
    const double least_pa = seal::least_chamber_pressure(liquid, t, rule).value.value();
    RC_ASSERT(seal::vapour_margin(liquid, {pascals(least_pa * 1.000001)}, t, rule).enough);
    RC_ASSERT(!seal::vapour_margin(liquid, {pascals(least_pa * 0.999999)}, t, rule).enough);
  });
}

TEST(LoadProperty, TheChamberStandsBetweenSuctionAndDischarge) {
  hold("chamber", [] {
    const auto back = *rc::gen::element(seal::ImpellerBack::plain, seal::ImpellerBack::balance_holes,
                                        seal::ImpellerBack::back_vanes, seal::ImpellerBack::wear_ring_removed,
                                        seal::ImpellerBack::double_suction);
    const double suction_pa = between(-9e4, 5e5);
    const double rise_pa = between(0, 2e6);
    const seal::ChamberPressure p = seal::chamber_pressure({pascals(suction_pa)}, pascals(rise_pa),
                                                           seal::chamber_share(back, between(0, 1)));
    RC_ASSERT(p.low.value.value() >= suction_pa);
    RC_ASSERT(p.low.value <= p.expected.value && p.expected.value <= p.high.value);
    RC_ASSERT(p.high.value.value() <= suction_pa + rise_pa + 1e-6);
  });
}

TEST(LoadProperty, AirThinsAllTheWayUp) {
  hold("atmosphere", [] {
    const double low_m = between(-500, 8900);
    RC_ASSERT(seal::standard_atmosphere(metres(low_m + between(0.1, 100))).value <
              seal::standard_atmosphere(metres(low_m)).value);
  });
}

}  // namespace
}  // namespace pumpwright::testing
