#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/seal/asperity_contact.h"
#include "engine/seal/film.h"
#include "tests/support/given_liquid.h"
#include "tests/support/given_seal.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

// Parallel smooth faces 1 µm apart, 1 mPa s, 24.45 to 30.8 mm, 1 MPa.
seal::FilmCase textbook_gap() {
  seal::FilmCase c = held_gap(1e-6);
  c.chamber = {pascals(1'101'325)};
  return c;
}

TEST(FilmReference, TheParallelGapLeaksAsTheClosedFormSays) {
  const double closed_m3_s = pi * 1e-18 * 1e6 / (6 * 1e-3 * std::log(0.0308 / 0.02445));
  const seal::FilmSolution s = seal::solve_film(textbook_gap(), GivenLiquid());
  ASSERT_TRUE(s.converged);
  EXPECT_NEAR(s.leakage.value() / closed_m3_s, 1, 1e-6);
  expect_outside({"leakage of a parallel radial gap", "Q = pi h^3 dp / (6 mu ln(ro/ri))",
                  Obtained::closed_form, fmt::format("{:.12e}", closed_m3_s), s.leakage.value(), "m3/s", 9});
  expect_outside({"the same as worked out by hand", "same formula, worked out separately",
                  Obtained::closed_form, "8.164", s.leakage.value() * 3.6e9, "mL/h", 4});
  expect_outside({"narrow-face form of it", "Q = pi Dm h^3 dp / (12 mu w), good to the face's narrowness",
                  Obtained::closed_form, "8.200", s.leakage.value() * 3.6e9, "mL/h", 2});
}

TEST(FilmReference, TheParallelGapsGradientFactorIsTheClosedForm) {
  const seal::FilmSolution s = seal::solve_film(textbook_gap(), GivenLiquid(), {1024, 100});
  expect_outside({"K of the solved parallel gap", "Do^2/(Do^2 - Di^2) - 1/(2 ln(Do/Di))",
                  Obtained::closed_form, "0.5383446818", s.gradient_factor, "", 7});
}

seal::FilmCase coned_gap(double angle_rad) {
  seal::FilmCase c = textbook_gap();
  c.coning.lapped = radians(angle_rad);
  return c;
}

TEST(FilmReference, TheConedGapLeaksAndCarriesAsQuadratureSays) {
  const std::string source = live_versions() + ", quad over the gap";
  for (const double angle_rad : {1e-4, -1e-4, 2.5e-4}) {
    const auto words = live_words(fmt::format("coned_gap 0.02445 0.0308 1e-6 {} 1e-3 1e6", angle_rad));
    const seal::FilmSolution s = seal::solve_film(coned_gap(angle_rad), GivenLiquid(), {2048, 100});
    const std::string name = fmt::format("cone of {:.2f} mrad: ", angle_rad * 1000);
    expect_outside({name + "leakage", source, Obtained::live, words.at(0), s.leakage.value(), "m3/s", 5});
    expect_outside({name + "K", source, Obtained::live, words.at(1), s.gradient_factor, "", 5});
  }
}

// log2 of how the error of a quantity falls when the cells are halved.
std::vector<double> orders(const std::vector<double>& errors) {
  std::vector<double> order;
  for (std::size_t i = 1; i < errors.size(); ++i)
    order.push_back(std::log2(errors[i - 1] / errors[i]));
  return order;
}

TEST(FilmReference, HalvingTheCellsQuartersTheErrorOfAConedGap) {
  const double exact_m3_s = std::stod(live_words("coned_gap 0.02445 0.0308 1e-6 1e-4 1e-3 1e6").at(0));
  std::vector<double> errors;
  for (const int cells : {64, 128, 256, 512}) {
    const auto s = seal::solve_film(coned_gap(1e-4), GivenLiquid(), {cells, 100});
    errors.push_back(std::fabs(s.leakage.value() / exact_m3_s - 1));
  }
  for (const double order : orders(errors))
    expect_outside({"order of the mesh, leakage of a coned gap", "second-order finite volumes",
                    Obtained::closed_form, "2.0", order, "", 2});
}

// No exact value here: differences between successive meshes, which fall at the same order.
TEST(FilmReference, HalvingTheCellsQuartersTheErrorOfTheWholeModel) {
  const ThinningLiquid liquid;
  std::vector<std::array<double, 3>> found;
  for (const int cells : {32, 64, 128, 256}) {
    const auto s = seal::solve_film(given_film(), liquid, {cells, 200});
    ASSERT_TRUE(s.converged) << cells;
    found.push_back({s.leakage.value(), s.heat.value(), s.separation.value()});
  }
  for (std::size_t q = 0; q < 3; ++q) {
    std::vector<double> differences;
    for (std::size_t i = 1; i < found.size(); ++i)
      differences.push_back(std::fabs(found[i][q] - found[i - 1][q]));
    for (const double order : orders(differences))
      EXPECT_NEAR(order, 2, 0.25) << q;
  }
}

std::string live_film(const seal::FilmCase& c, const GivenLiquid& liquid) {
  const seal::Asperities& a = *c.asperities;
  const double stiffness_pa = 4.0 / 3 * a.modulus.value() * a.crowding * std::sqrt(a.sharpness);
  return fmt::format(
      "film ri={} ro={} balance={} spring={} chamber={} atmosphere={} omega={} sigma={} stiffness={} "
      "friction={} "
      "lapped={} by_pressure={} by_heat={} to_chamber={} along={} mu0={} beta={} t0={} rho_cp={}",
      c.faces.inner_diameter.value() / 2, c.faces.outer_diameter.value() / 2, seal::balance_ratio(c.faces),
      c.spring.value(), c.chamber.value.value(), c.atmosphere.value.value(), c.speed.value(),
      a.roughness.value(), stiffness_pa, a.friction, c.coning.lapped.value(), c.coning.by_pressure.value(),
      c.coning.by_heat.value(), c.heat.to_chamber.value(), c.heat.along_the_face.value(),
      liquid.viscosity_pa_s, liquid.thinning_per_k, kelvin_of(c.chamber_temperature),
      liquid.density_kg_m3 * liquid.heat_capacity_j_kgk);
}

TEST(FilmReference, TheWholeModelAgreesWithCollocation) {
  const ThinningLiquid liquid;
  const std::string source = live_versions() + ", solve_bvp on the same equations";
  seal::FilmCase cool = given_film();
  cool.chamber_temperature = kelvin(303.15);
  cool.speed = radians_per_second(180);
  for (const seal::FilmCase& c : {given_film(), cool}) {
    const auto words = live_words(live_film(c, liquid));
    ASSERT_EQ(words.size(), 8U);
    const seal::FilmSolution s = seal::solve_film(c, liquid, {512, 200});
    ASSERT_TRUE(s.converged);
    const double chamber_k = kelvin_of(c.chamber_temperature);
    const std::string name = fmt::format("seal at {:.0f} K, {:.0f} rad/s: ", chamber_k, c.speed.value());
    const auto row = [&](const char* what, std::size_t i, double computed, const char* unit) {
      expect_outside({name + what, source, Obtained::live, words.at(i), computed, unit, 4});
    };
    row("separation", 0, s.separation.value(), "m");
    row("cone angle", 1, s.coning.value(), "rad");
    row("leakage", 2, s.leakage.value(), "m3/s");
    row("heat", 3, s.heat.value(), "W");
    row("contact force", 4, s.contact_force.value(), "N");
    row("mean film", 5, s.mean_film.value(), "m");
    row("mean rise of the face", 6, kelvin_of(s.face_mean) - chamber_k, "K");
  }
}

TEST(FilmReference, SummitLoadIsTheIntegral) {
  const std::string source = live_versions() + ", quad of (s - lambda)^1.5 phi(s)";
  const std::vector<double> lambdas{-4, -2.013, -1, 0, 0.517, 1, 2, 3.333, 4, 6};
  std::string arguments = "summits";
  for (const double lambda : lambdas)
    arguments += fmt::format(" {}", lambda);
  const auto words = live_words(arguments);
  ASSERT_EQ(words.size(), lambdas.size());
  for (std::size_t i = 0; i < lambdas.size(); ++i)
    expect_outside({fmt::format("summit load integral at lambda {}", lambdas[i]), source, Obtained::live,
                    words[i], seal::summit_load_integral(lambdas[i]), "", 7});
}

}  // namespace
}  // namespace pumpwright::testing
