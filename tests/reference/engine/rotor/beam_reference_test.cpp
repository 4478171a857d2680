// Bent shafts beside closed forms and textbook figures. Shear is part of every computed line; where a source
// leaves it out, its closed form is taken off first.
#include <array>
#include <cmath>
#include <string>

#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/rotor/beam_element.h"
#include "engine/rotor/response.h"
#include "tests/support/given_rotor.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using rotor::PointForce;

constexpr double e_pa = 205e9;
constexpr double kappa = 6 * 1.3 / (7 + 6 * 0.3);

double inertia_m4(double d_m) {
  return pi / 64 * d_m * d_m * d_m * d_m;
}
double shear_stiffness_n(double d_m) {
  return kappa * e_pa / 2.6 * pi / 4 * d_m * d_m;
}

void closed_form(const std::string& what, const std::string& formula, double exact, double computed,
                 const std::string& unit) {
  expect_outside({what, formula, Obtained::closed_form, fmt::format("{:.9e}", exact), computed, unit, 8});
}

rotor::Response pulled(const rotor::Rotor& r, double at_m, double force_n) {
  const PointForce force{metres(at_m), newtons(force_n)};
  return rotor::bent_by(rotor::rotor_matrices(r), {&force, 1});
}

TEST(BeamReference, CantileverOfOneElement) {
  const double d_m = 0.04, l_m = 0.25, f_n = 700;
  const rotor::BeamElement e = rotor::beam_element({metres(1), metres(d_m), metres(0)}, given_steel(), l_m);
  const Eigen::Vector2d tip = e.stiffness.bottomRightCorner<2, 2>().inverse() * Eigen::Vector2d(f_n, 0);
  const double bending = e_pa * inertia_m4(d_m);
  closed_form("cantilever 250 mm, 40 mm thick, 700 N: deflection of its end",
              "F L³ / 3 E I + F L / kappa G A",
              f_n * l_m * l_m * l_m / (3 * bending) + f_n * l_m / shear_stiffness_n(d_m), tip(0), "m");
  closed_form("the same: slope of its end", "F L² / 2 E I", f_n * l_m * l_m / (2 * bending), tip(1), "rad");
}

TEST(BeamReference, BetweenBearings) {
  const double d_m = 0.05, l_m = 0.8;
  rotor::Rotor r = even_shaft(l_m, d_m, 0, l_m);
  r.stations = {metres(0.4), metres(0.2)};
  const double bending = e_pa * inertia_m4(d_m);
  closed_form("shaft 800 mm between bearings, 50 mm thick, 900 N in the middle: deflection there",
              "F L³ / 48 E I + F L / 4 kappa G A",
              900 * l_m * l_m * l_m / (48 * bending) + 900 * l_m / (4 * shear_stiffness_n(d_m)),
              point_at(pulled(r, 0.4, 900), metres(0.4)).deflection.value(), "m");
  closed_form("the same: slope at a bearing", "F L² / 16 E I", 900 * l_m * l_m / (16 * bending),
              point_at(pulled(r, 0.4, 900), metres(0)).tilt.value(), "rad");
  const double weight_n_m = 7850 * pi / 4 * d_m * d_m * 9.80665;
  closed_form("the same under its own weight: deflection in the middle",
              "5 q L⁴ / 384 E I + q L² / 8 kappa G A",
              5 * weight_n_m * std::pow(l_m, 4) / (384 * bending) +
                  weight_n_m * l_m * l_m / (8 * shear_stiffness_n(d_m)),
              point_at(rotor::bent_by_weight(rotor::rotor_matrices(r)), metres(0.4)).deflection.value(), "m");
}

TEST(BeamReference, OverhungEnd) {
  // The shaft of the classic check: 500 N, 28 mm, 90 mm overhung, 150 mm between bearings.
  const double d_m = 0.028, a_m = 0.09, l_m = 0.15, f_n = 500;
  const rotor::Rotor r = even_shaft(a_m + l_m, d_m, a_m, a_m + l_m);
  const rotor::Response bent = pulled(r, 0, f_n);
  const double bending = e_pa * inertia_m4(d_m);
  const double shear_m = f_n * a_m / shear_stiffness_n(d_m) * (1 + a_m / l_m);
  const double tip_m = point_at(bent, metres(0)).deflection.value();
  closed_form("overhung shaft 90 + 150 mm, 28 mm thick, 500 N: deflection of its end",
              "F a² (L + a) / 3 E I + (F a / kappa G A)(1 + a / L)",
              f_n * a_m * a_m * (a_m + l_m) / (3 * bending) + shear_m, tip_m, "m");
  expect_outside({"the same, shear taken off", "a² (L + a) F / 3 E I, public table of beam formulas",
                  Obtained::read, "52.383", (tip_m - shear_m) * 1e6, "µm", 5});
  const double turn =
      -f_n * a_m * (2 * l_m + 3 * a_m) / (6 * bending) - f_n * a_m / (l_m * shear_stiffness_n(d_m));
  closed_form("the same: tilt of the section at its end", "F a (2 L + 3 a) / 6 E I + F a / (L kappa G A)",
              turn, point_at(bent, metres(0)).tilt.value(), "rad");
  closed_form("the same: load on the near bearing", "F (L + a) / L", f_n * (l_m + a_m) / l_m,
              bent.bearing[0].value(), "N");
}

// Three diameters to the near bearing, one between: the formula pump designers use, by Castigliano.
TEST(BeamReference, SteppedOverhungShaft) {
  const std::array<double, 4> d_m{0.024, 0.03, 0.036, 0.04};
  const double n_m = 0.03, m_m = 0.06, l_m = 0.1, x_m = 0.16, f_n = 400;
  rotor::Rotor r = even_shaft(l_m + x_m, 0.04, l_m, l_m + x_m);
  r.steps = {{metres(n_m), metres(d_m[0]), metres(0)},
             {metres(m_m - n_m), metres(d_m[1]), metres(0)},
             {metres(l_m - m_m), metres(d_m[2]), metres(0)},
             {metres(x_m), metres(d_m[3]), metres(0)}};
  const auto cube = [](double v) { return v * v * v; };
  const double bending_m =
      f_n / (3 * e_pa) *
      (cube(n_m) / inertia_m4(d_m[0]) + (cube(m_m) - cube(n_m)) / inertia_m4(d_m[1]) +
       (cube(l_m) - cube(m_m)) / inertia_m4(d_m[2]) + l_m * l_m * x_m / inertia_m4(d_m[3]));
  const double shear_m =
      f_n * (n_m / shear_stiffness_n(d_m[0]) + (m_m - n_m) / shear_stiffness_n(d_m[1]) +
             (l_m - m_m) / shear_stiffness_n(d_m[2]) + l_m * l_m / x_m / shear_stiffness_n(d_m[3]));
  closed_form("stepped overhung shaft: deflection of its end",
              "F / 3 E [N³/I_N + (M³ - N³)/I_M + (L³ - M³)/I_L + L² X/I_X] and shear by Castigliano",
              bending_m + shear_m, point_at(pulled(r, 0, f_n), metres(0)).deflection.value(), "m");
}

TEST(BeamReference, TextbookSteppedShaft) {
  const double inertia = 0.3e-6;
  const double thin_m = std::pow(64 * inertia / pi, 0.25), thick_m = std::pow(128 * inertia / pi, 0.25);
  rotor::Rotor r = even_shaft(1, thin_m, 0, 1);
  r.material.modulus = pascals(200e9);
  r.steps = {{metres(0.25), metres(thin_m), metres(0)},
             {metres(0.5), metres(thick_m), metres(0)},
             {metres(0.25), metres(thin_m), metres(0)}};
  r.stations = {metres(0.5)};
  const double g_pa = 200e9 / 2.6;
  const auto area = [](double d_m) { return pi / 4 * d_m * d_m; };
  const double shear_m = 400.0 / 8 * (1 / area(thin_m) + 1 / area(thick_m)) / (kappa * g_pa);
  expect_outside(
      {"stepped shaft with a flywheel, I and 2 I: deflection without shear",
       "Ugural, Mechanical Design, example 9.6: 3 W L³ / 256 E I (formula and inputs read in a public "
       "solution)",
       Obtained::read, "78.125",
       (point_at(pulled(r, 0.5, 400), metres(0.5)).deflection.value() - shear_m) * 1e6, "µm", 5});
}

// Influence coefficients of a 1 in shaft 24 in long, E 30e6 psi.
TEST(BeamReference, TextbookInfluenceCoefficients) {
  constexpr double in = 0.0254, lbf = 4.4482216152605;
  rotor::Rotor r = even_shaft(24 * in, 1 * in, 0, 24 * in);
  const double psi = lbf / (in * in);
  r.material.modulus = pascals(30e6 * psi);
  const double shear_n = kappa * 30e6 * psi / 2.6 * pi / 4 * in * in;
  const auto coefficient = [&](double here_in, double there_in) {
    r.stations = {metres(here_in * in), metres(there_in * in)};
    const double whole_m = point_at(pulled(r, here_in * in, lbf), metres(there_in * in)).deflection.value();
    const double near_in = std::min(here_in, there_in), far_in = std::max(here_in, there_in);
    return (whole_m - lbf * near_in * in * (24 - far_in) / 24 / shear_n) / in;
  };
  const std::string source = "Shigley's Mechanical Engineering Design, solutions to chapter 7 (public copy)";
  struct Row {
    double here, there;
    const char* published;
    int digits = 4;
  };
  for (const Row& row : {Row{12, 12, "1.956e-4"}, Row{6, 6, "1.100e-4"}, Row{6, 18, "8.556e-5"},
                         Row{4, 4, "6.036e-5"}, Row{12, 4, "9.416e-5"}, Row{4, 20, "4.104e-5", 3}})
    expect_outside(
        {fmt::format("1 in shaft, 24 in long: pulled at {} in, seen at {} in", row.here, row.there), source,
         Obtained::read, row.published, coefficient(row.here, row.there), "in/lbf", row.digits});
}

TEST(BeamReference, ShearCoefficient) {
  expect_outside({"shear coefficient of a solid round bar, v 0.3", "Cowper 1966, table", Obtained::remembered,
                  "0.886", rotor::round_shear_coefficient(0, 0.3), "", 3});
  // The other way the formula is written: A / ((7 + 6 v) / (6 (1 + v)) [1 + (20 + 12 v)/(7 + 6 v) (D d/(D² +
  // d²))²]).
  const double ratio = 0.4 / (1 + 0.16);
  const double other =
      1 / ((7 + 6 * 0.29) / (6 * 1.29) * (1 + (20 + 12 * 0.29) / (7 + 6 * 0.29) * ratio * ratio));
  expect_outside({"the same with a bore of 0.4, v 0.29",
                  "the formula as a public rotor-dynamics code writes it", Obtained::read,
                  fmt::format("{:.9f}", other), rotor::round_shear_coefficient(0.4, 0.29), "", 9});
}

}  // namespace
}  // namespace pumpwright::testing
