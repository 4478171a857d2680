#include "engine/assembly/interference.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

PressFit impeller_on_shaft() {
  const ElasticMaterial steel{pascals(207e9), 0.292};
  PressFit fit;
  fit.contact_diameter = metres(0.040);
  fit.hub_outside = metres(0.070);
  fit.engaged_length = metres(0.035);
  fit.interference = metres(30e-6);
  fit.hub = steel;
  fit.shaft = steel;
  return fit;
}

TEST(PressFit, ForceBalanceHoldsOverAHalfSection) {
  // Integral of hoop stress over the hub's wall carries the pressure on its bore: mean hoop * wall = p *
  // radius.
  const PressFitState state = press_fit(impeller_on_shaft());
  const double a = 0.020;
  const double b = 0.035;
  const double p = state.contact.value();
  const double c1 = p * a * a / (b * b - a * a);
  const double integral = c1 * (b - a) + c1 * b * b * (1 / a - 1 / b);
  EXPECT_NEAR(integral, p * a, 1e-6 * p * a);
  EXPECT_NEAR(state.hub_hoop_at_bore.value(), c1 * (1 + b * b / (a * a)), 1);
  EXPECT_NEAR(state.hub_hoop_outside.value(), 2 * c1, 1);
}

TEST(PressFit, SolidShaftIsEvenlyCompressed) {
  const PressFitState state = press_fit(impeller_on_shaft());
  EXPECT_EQ(state.shaft_hoop_surface, -state.contact);
  EXPECT_EQ(state.shaft_hoop_bore, -state.contact);
}

TEST(PressFit, AVeryThinBoreDoublesTheStressAtTheAxis) {
  PressFit fit = impeller_on_shaft();
  fit.shaft_bore = metres(1e-7);
  const PressFitState state = press_fit(fit);
  EXPECT_NEAR(state.shaft_hoop_bore / state.contact, -2, 1e-6);
  EXPECT_NEAR(state.shaft_hoop_surface / state.contact, -1, 1e-6);
}

TEST(PressFit, GrowthOfTheOutsideFollowsFromItsHoopStrain) {
  const PressFitState state = press_fit(impeller_on_shaft());
  EXPECT_NEAR(state.hub_growth_outside.value(), 0.070 * state.hub_hoop_outside.value() / 207e9, 1e-12);
  EXPECT_GT(state.hub_von_mises, state.hub_hoop_at_bore);
}

TEST(PressFit, RefusesWhatIsNotAPressFit) {
  const auto refuses = [](auto change) {
    PressFit fit = impeller_on_shaft();
    change(fit);
    EXPECT_THROW(press_fit(fit), BadInput);
  };
  refuses([](PressFit& f) { f.contact_diameter = metres(0); });
  refuses([](PressFit& f) { f.hub_outside = metres(0.040); });
  refuses([](PressFit& f) { f.shaft_bore = metres(0.040); });
  refuses([](PressFit& f) { f.shaft_bore = metres(-0.001); });
  refuses([](PressFit& f) { f.engaged_length = metres(0); });
  refuses([](PressFit& f) { f.interference = metres(0); });
  refuses([](PressFit& f) { f.interference = metres(0.001); });
  refuses([](PressFit& f) { f.friction = -0.1; });
  refuses([](PressFit& f) { f.hub.poisson = 0.5; });
  refuses([](PressFit& f) { f.shaft.youngs_modulus = pascals(207); });  // GPa given as Pa
  refuses([](PressFit& f) { f.hub_outside = metres(std::nan("")); });
}

ShrinkAssembly shrink() {
  return {metres(0.040),       metres(30e-6),  metres(50e-6), per_kelvin(11.6e-6),
          per_kelvin(11.6e-6), kelvin(293.15), kelvin(293.15)};
}

TEST(ShrinkFit, ColdShaftSavesHeat) {
  ShrinkAssembly assembly = shrink();
  const double warm = kelvin_of(hub_temperature_to_assemble(assembly));
  assembly.shaft = kelvin(253.15);
  EXPECT_NEAR(kelvin_of(hub_temperature_to_assemble(assembly)), warm - 40, 1e-9);
}

TEST(ShrinkFit, NeverAsksToCoolTheHub) {
  ShrinkAssembly assembly = shrink();
  assembly.interference = metres(0);
  assembly.working_clearance = metres(0);
  assembly.shaft = kelvin(200);
  EXPECT_EQ(kelvin_of(hub_temperature_to_assemble(assembly)), 293.15);
}

TEST(ShrinkFit, RefusesNumbersOutOfReason) {
  const auto refuses = [](auto change) {
    ShrinkAssembly assembly = shrink();
    change(assembly);
    EXPECT_THROW(hub_temperature_to_assemble(assembly), BadInput);
  };
  refuses([](ShrinkAssembly& a) { a.hub_expansion = per_kelvin(11.6); });
  refuses([](ShrinkAssembly& a) { a.shaft = kelvin(300); });
  refuses([](ShrinkAssembly& a) { a.room = kelvin(20); });
  refuses([](ShrinkAssembly& a) { a.working_clearance = metres(-1e-6); });
  refuses([](ShrinkAssembly& a) { a.contact_diameter = metres(std::nan("")); });
}

}  // namespace
}  // namespace pumpwright
