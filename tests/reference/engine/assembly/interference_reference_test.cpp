#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/assembly/interference.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

PressFit fit_mm(double d, double hub_outside, double shaft_bore, double interference,
                const ElasticMaterial& hub, const ElasticMaterial& shaft) {
  PressFit fit;
  fit.contact_diameter = metres(d / 1000);
  fit.hub_outside = metres(hub_outside / 1000);
  fit.shaft_bore = metres(shaft_bore / 1000);
  fit.engaged_length = metres(0.035);
  fit.interference = metres(interference / 1000);
  fit.hub = hub;
  fit.shaft = shaft;
  fit.friction = 0.12;
  return fit;
}

const ElasticMaterial steel{pascals(207e9), 0.292};
const ElasticMaterial grey_iron{pascals(100e9), 0.211};

// A tube 20/40 mm with a jacket 60 mm outside: the textbook asks which bore of the jacket gives 100 N/mm^2 at
// most. Both parts have the same steel, so that Poisson's ratio cancels.
TEST(InterferenceReference, CompoundTubeOfATextbookIsReproduced) {
  const std::string source =
      "Design of Machine Elements textbook, example 22.6, as worked in its open Scilab companion (jacket "
      "bore 39.968289 mm)";
  const PressFitState state = press_fit(fit_mm(40, 60, 20, 40 - 39.968289, steel, steel));
  expect_outside({"jacket hoop stress at its bore", source, Obtained::read, "100",
                  state.hub_hoop_at_bore.value() / 1e6, "N/mm^2", 3});
}

TEST(InterferenceReference, ShrinkagePressureOfATextbookTubeIsReproduced) {
  const std::string source =
      "Design of Machine Elements textbook, example 22.8, as worked in its open Scilab companion (jacket "
      "bore 74.991916 mm)";
  const PressFitState state = press_fit(fit_mm(75, 100, 50, 75 - 74.991916, steel, steel));
  expect_outside(
      {"shrinkage pressure", source, Obtained::read, "3.615169", state.contact.value() / 1e6, "N/mm^2", 4});
}

struct Case {
  const char* name;
  PressFit fit;
  const char* contact_mpa;
  const char* hub_mpa;
  const char* shaft_mpa;
};

TEST(InterferenceReference, StressesAreThoseOfLamesFormulas) {
  const std::vector<Case> cases{
      {"steel on steel", fit_mm(40, 70, 0, 0.030, steel, steel), "52.2780612", "102.9719388", "-52.2780612"},
      {"iron on steel", fit_mm(40, 70, 0, 0.030, grey_iron, steel), "29.7297453", "58.5585891",
       "-29.7297453"},
      {"sleeve", fit_mm(30, 50, 20, 0.020, steel, steel), "29.2063492", "62.0634921", "-75.9365079"}};
  const std::string source = "Lame's thick rings in plane stress, evaluated separately";
  for (const Case& c : cases) {
    const PressFitState state = press_fit(c.fit);
    const std::string name = std::string(c.name) + ": ";
    expect_outside({name + "contact pressure", source, Obtained::closed_form, c.contact_mpa,
                    state.contact.value() / 1e6, "MPa", 8});
    expect_outside({name + "hub hoop stress", source, Obtained::closed_form, c.hub_mpa,
                    state.hub_hoop_at_bore.value() / 1e6, "MPa", 8});
    expect_outside({name + "shaft hoop stress", source, Obtained::closed_form, c.shaft_mpa,
                    state.shaft_hoop_surface.value() / 1e6, "MPa", 8});
  }
  const PressFitState state = press_fit(cases[0].fit);
  expect_outside(
      {"axial force", source, Obtained::closed_form, "27591.7", state.axial_force.value(), "N", 6});
  expect_outside({"torque", source, Obtained::closed_form, "551.834", state.torque.value(), "N m", 6});
}

// The contact pressure without Lame: both rings' equilibrium integrated numerically.
TEST(InterferenceReference, NumericalIntegrationOfTheRingsGivesTheSamePressure) {
  const std::string source = "equilibrium of both rings integrated by solve_ivp, " + live_versions();
  const std::vector<PressFit> fits{fit_mm(40, 70, 0, 0.030, grey_iron, steel),
                                   fit_mm(30, 50, 20, 0.020, steel, grey_iron),
                                   fit_mm(25, 26, 24, 0.010, steel, steel)};
  for (const PressFit& fit : fits) {
    const auto words = live_words(fmt::format(
        "press_fit {} {} {} {} {} {} {} {}", fit.contact_diameter.value(), fit.hub_outside.value(),
        fit.shaft_bore.value(), fit.interference.value(), fit.hub.youngs_modulus.value(), fit.hub.poisson,
        fit.shaft.youngs_modulus.value(), fit.shaft.poisson));
    ASSERT_EQ(words.size(), 1U);
    expect_outside({fmt::format("contact pressure on {} mm", fit.contact_diameter.value() * 1000), source,
                    Obtained::live, words[0], press_fit(fit).contact.value(), "Pa", 8});
  }
}

TEST(InterferenceReference, HeatingMatchesItsClosedForm) {
  const std::string source = "(interference + clearance) / (alpha d), evaluated separately";
  const auto rise = [](double alpha) {
    const ShrinkAssembly assembly{metres(0.040),     metres(30e-6),  metres(50e-6), per_kelvin(alpha),
                                  per_kelvin(alpha), kelvin(293.15), kelvin(293.15)};
    return kelvin_of(hub_temperature_to_assemble(assembly)) - 293.15;
  };
  expect_outside({"heating, alpha 11.6e-6", source, Obtained::closed_form, "172.4", rise(11.6e-6), "K", 4});
  expect_outside({"heating, alpha 11.4e-6", source, Obtained::closed_form, "175.4", rise(11.4e-6), "K", 4});
}

}  // namespace
}  // namespace pumpwright::testing
