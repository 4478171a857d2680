#include <cmath>
#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/seal/face_load.h"
#include "engine/seal/spring.h"
#include "tests/support/given_liquid.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

// A ring of 150 mm² whose balance diameter gives the hydraulic area, mm², pressure outside.
seal::FaceLoad closing_force_example(double hydraulic_mm2) {
  const double inner_mm = 30;
  const double outer_mm = std::sqrt(inner_mm * inner_mm + 4 * 150 / pi);
  const double balance_mm = std::sqrt(outer_mm * outer_mm - 4 * hydraulic_mm2 / pi);
  seal::FaceLoadCase c;
  c.faces = {metres(outer_mm / 1000), metres(inner_mm / 1000), metres(balance_mm / 1000),
             seal::PressureSide::outside};
  c.across = pascals(0.8e6);
  c.spring = newtons(45);
  return seal::face_load(c);
}

TEST(FaceLoadReference, TheFifteenPrintedClosingForcesAreReproduced) {
  const std::string source =
      "a pump maker's shaft seal manual, worked closing forces: p 0.8 N/mm2, spring 45 N, face 150 mm2";
  struct Row {
    double area_mm2;
    const char *ratio, *closing, *opening, *net, *pressure;
  };
  for (const Row& row :
       {Row{180, "1.2", "189", "60", "129", "0.86"}, Row{150, "1.0", "165", "60", "105", "0.70"},
        Row{120, "0.8", "141", "60", "81", "0.54"}}) {
    const seal::FaceLoad load = closing_force_example(row.area_mm2);
    const std::string name = fmt::format("hydraulic area {:.0f} mm2: ", row.area_mm2);
    const double ratio = (load.closing.value() - 45) / (0.8e6 * 150e-6);
    expect_outside({name + "balance ratio", source, Obtained::read, row.ratio, ratio, "", 1});
    expect_outside(
        {name + "closing force", source, Obtained::read, row.closing, load.closing.value(), "N", 3});
    expect_outside(
        {name + "opening force", source, Obtained::read, row.opening, load.opening.value(), "N", 2});
    expect_outside({name + "net force", source, Obtained::read, row.net, load.net.value(), "N", 2});
    expect_outside({name + "face pressure", source, Obtained::read, row.pressure,
                    load.net_pressure.value() / 1e6, "N/mm2", 2});
  }
}

// The publication's own numbers could not be read: inputs from memory, results worked out separately from its
// formulas. It shows that the formulas hang together, not that they are the publication's.
TEST(FaceLoadReference, TheAnnexFormulasOnAnOwnCase) {
  const std::string source =
      "own case: inputs remembered as those of the API 682 / ISO 21049 annex, results worked out separately";
  seal::FaceLoadCase c;
  c.faces = {metres(0.0616), metres(0.0489), metres(0.0524), seal::PressureSide::outside};
  c.across = pascals(2e6);
  c.spring = newtons(190);
  c.speed = radians_per_second(3000 * 2 * pi / 60);
  const seal::FaceLoad load = seal::face_load(c);
  const auto row = [&](const char* what, const char* value, double computed, const char* unit) {
    expect_outside({what, source, Obtained::remembered, value, computed, unit, 4});
  };
  row("face area", "1102.19", seal::face_area(c.faces).value() * 1e6, "mm2");
  row("balance ratio", "0.74735", seal::balance_ratio(c.faces), "");
  row("spring pressure", "0.17238", load.spring_pressure.value() / 1e6, "MPa");
  row("face pressure", "0.66709", load.net_pressure.value() / 1e6, "MPa");
  row("mean diameter", "55.25", seal::mean_diameter(c.faces).value() * 1000, "mm");
  row("running torque", "1.4218", load.running.value(), "N m");
  row("heat", "0.44664", load.heat.value() / 1000, "kW");
  row("sliding speed", "8.6786", load.sliding.value(), "m/s");
  row("PV", "5.789", load.pv.value() / 1e6, "MPa m/s");
  GivenLiquid water;
  water.heat_capacity_j_kgk = 4200;
  const VolumeFlow flow =
      seal::circulation_for(load.heat, kelvin_step(5.6), water, kelvin(300), {pascals(2e6)});
  row("circulation for 5.6 K", "1.139", flow.value() * 60'000, "L/min");
}

TEST(FaceLoadReference, PvInPoundsIsPvInBar) {
  const double psi = 6894.757293168361;
  const double feet_a_minute = 0.3048 / 60;
  seal::FaceLoadCase c;
  c.faces = {metres(0.0801), metres(0.0723), metres(0.075), seal::PressureSide::outside};
  c.across = pascals(400 * psi);
  c.speed = radians_per_second(250 * feet_a_minute / (0.0762 / 2));
  expect_outside({"100 000 lb/in2 ft/min", "pump handbook, section on mechanical seals", Obtained::read,
                  "35.03", seal::face_load(c).pv_of_across.value() / 1e5, "bar m/s", 3});
}

TEST(FaceLoadReference, ThreeInchesAt3600AreTheTextbooksSpeed) {
  seal::FaceLoadCase c;
  c.faces = {metres(0.0801), metres(0.0723), metres(0.075), seal::PressureSide::outside};
  c.speed = radians_per_second(3600 * 2 * pi / 60);
  expect_outside({"face speed of a 3 in mean diameter at 3600 r/min", "pi D n", Obtained::closed_form,
                  "2827.4", seal::face_load(c).sliding.value() / 0.3048 * 60, "ft/min", 5});
}

TEST(FaceLoadReference, TheParallelGapsGradientFactorIsTheMeanOfTheLogProfile) {
  const std::string source = live_versions() + ", quad of the pressure linear in ln r";
  for (const double inner_m : {0.0489, 0.03, 0.060}) {
    const seal::Faces faces{metres(0.0616), metres(inner_m), metres(0.0524), seal::PressureSide::outside};
    expect_outside({fmt::format("K of a parallel gap, 61.6 / {:.1f} mm", inner_m * 1000), source,
                    Obtained::live, live_words(fmt::format("gradient_factor 0.0616 {}", inner_m)).at(0),
                    seal::parallel_gradient_factor(faces), "", 10});
  }
}

TEST(FaceLoadReference, HalfAMillimetreOfLengthIsTheForceWorkedOut) {
  const seal::Spring spring = seal::spring_of_nominal({metres(0.0375), metres(0)}, {newtons(45), newtons(0)},
                                                      {newtons_per_metre(8000), newtons_per_metre(0)});
  const double more_n = seal::force_at(spring, {metres(0.0370), metres(0)}).force.value.value() - 45;
  expect_outside({"8 N/mm shortened by 0.5 mm", "k dL", Obtained::closed_form, "4", more_n, "N", 1});
  expect_outside(
      {"the same on 150 mm2", "k dL / A", Obtained::closed_form, "0.027", more_n / 150, "N/mm2", 2});
}

}  // namespace
}  // namespace pumpwright::testing
