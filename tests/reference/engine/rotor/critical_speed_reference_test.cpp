// Whirling shafts beside closed forms and textbook figures.
#include <array>
#include <cmath>
#include <complex>
#include <string>
#include <vector>

#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/rotor/beam_element.h"
#include "engine/rotor/whirl.h"
#include "tests/support/given_rotor.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

constexpr double e_pa = 205e9;
constexpr double density = 7850;
constexpr double kappa = 6 * 1.3 / (7 + 6 * 0.3);

std::string written(double value) {
  return fmt::format("{:.9e}", value);
}

// Real roots of a polynomial, lowest power first, by its companion matrix.
std::vector<double> real_roots(const std::vector<double>& p) {
  const auto n = static_cast<Eigen::Index>(p.size() - 1);
  Eigen::MatrixXd companion = Eigen::MatrixXd::Zero(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    if (i > 0) companion(i, i - 1) = 1;
    companion(i, n - 1) = -p[static_cast<std::size_t>(i)] / p.back();
  }
  std::vector<double> roots;
  for (const std::complex<double>& root : companion.eigenvalues())
    if (std::fabs(root.imag()) < 1e-6 * std::abs(root)) roots.push_back(root.real());
  return roots;
}

double nearest(const std::vector<double>& roots, double to) {
  double best = roots.front();
  for (const double root : roots)
    if (std::fabs(root - to) < std::fabs(best - to)) best = root;
  return best;
}

TEST(CriticalSpeedReference, ASlenderShaftIsEulersBeam) {
  const double d_m = 0.002, l_m = 2;
  const double inertia_over_area = d_m * d_m / 16;
  const double exact = pi * pi / (l_m * l_m) * std::sqrt(e_pa * inertia_over_area / density);
  const auto critical = rotor::critical_speeds(rotor::rotor_matrices(even_shaft(l_m, d_m, 0, l_m)), 3);
  for (std::size_t mode = 1; mode <= 3; ++mode)
    expect_outside({fmt::format("slender shaft between bearings, critical speed {}", mode),
                    "n² pi² sqrt(E I / (rho A L⁴))", Obtained::closed_form,
                    written(static_cast<double>(mode * mode) * exact), critical.forward.at(mode - 1).value(),
                    "rad/s", 5});
}

// (kappa G A a² - rho A w²)(E I a² + kappa G A - rho I w² + 2 rho I S w) = (kappa G A a)², a = n pi / L.
TEST(CriticalSpeedReference, AStoutSpinningShaftIsTimoshenkosWithGyroscopicMoment) {
  const double d_m = 0.12, l_m = 0.6, spin = 2000;
  const double area = pi / 4 * d_m * d_m, inertia = pi / 64 * std::pow(d_m, 4);
  const double shear = kappa * e_pa / 2.6 * area;
  const auto m = rotor::rotor_matrices(even_shaft(l_m, d_m, 0, l_m), 120);
  const auto modes = rotor::whirl_modes(m, radians_per_second(spin), 3);
  for (int n = 1; n <= 2; ++n) {
    const double a = n * pi / l_m;
    const double p = shear * a * a, q = e_pa * inertia * a * a + shear;
    const double mass = density * area, turn = density * inertia;
    const auto roots = real_roots({p * q - shear * shear * a * a, 2 * p * turn * spin, -p * turn - q * mass,
                                   -2 * mass * turn * spin, mass * turn});
    for (const bool forward : {true, false}) {
      int seen = 0;
      for (const rotor::WhirlMode& mode : modes) {
        if (mode.forward != forward || ++seen != n) continue;
        const double signed_w = forward ? mode.frequency.value() : -mode.frequency.value();
        expect_outside({fmt::format("shaft 600 mm, 120 mm thick, spinning with 2000 rad/s: mode {} {}", n,
                                    forward ? "forward" : "backward"),
                        "quartic of the Timoshenko shaft between bearings", Obtained::closed_form,
                        written(nearest(roots, signed_w)), signed_w, "rad/s", n == 1 ? 5 : 4});
      }
      EXPECT_GE(seen, n);
    }
  }
}

TEST(CriticalSpeedReference, JeffcottRotor) {
  const double d_m = 0.03, l_m = 1;
  rotor::Rotor r = even_shaft(l_m, d_m, 0, l_m);
  r.material.density = kilograms_per_cubic_metre(500);
  r.impeller = {metres(0.5), kilograms(100), kilogram_square_metres(0), kilogram_square_metres(0)};
  const double give = l_m * l_m * l_m / (48 * e_pa * pi / 64 * std::pow(d_m, 4)) +
                      l_m / (4 * kappa * e_pa / 2.6 * pi / 4 * d_m * d_m);
  const double mass_kg = 100 + 17.0 / 35 * 500 * pi / 4 * d_m * d_m * l_m;
  expect_outside({"heavy disk in the middle of a light shaft: critical speed",
                  "sqrt(k / (m + 17/35 shaft)), k with shear: Rayleigh's quotient", Obtained::closed_form,
                  written(1 / std::sqrt(give * mass_kg)),
                  rotor::critical_speeds(rotor::rotor_matrices(r), 1).forward.at(0).value(), "rad/s", 5});
}

// Roots of det(K + w S diag(0, Ip) - w² diag(m, Id)) with the two by two stiffness K of the place.
std::vector<double> disk_roots(const Eigen::Matrix2d& k, double mass, double diametral, double polar,
                               double spin) {
  const double cross = k(0, 1) * k(1, 0);
  return real_roots({k(0, 0) * k(1, 1) - cross, k(0, 0) * spin * polar, -k(0, 0) * diametral - k(1, 1) * mass,
                     -mass * spin * polar, mass * diametral});
}

TEST(CriticalSpeedReference, OverhungDiskFollowsItsQuartic) {
  const double d_m = 0.05, a_m = 0.15, l_m = 0.25, mass = 1500, diametral = 12, polar = 20;
  rotor::Rotor r = even_shaft(a_m + l_m, d_m, a_m, a_m + l_m);
  r.material.density = kilograms_per_cubic_metre(500);
  r.impeller = {metres(0), kilograms(mass), kilogram_square_metres(polar), kilogram_square_metres(diametral)};
  const double bending = e_pa * pi / 64 * std::pow(d_m, 4), shear = kappa * e_pa / 2.6 * pi / 4 * d_m * d_m;
  Eigen::Matrix2d give;  // deflection and tilt of the end by force and moment, shaft's mass left out
  give(0, 0) = a_m * a_m * (l_m + a_m) / (3 * bending) + a_m / shear * (1 + a_m / l_m);
  give(0, 1) = give(1, 0) = -a_m * (2 * l_m + 3 * a_m) / (6 * bending) - a_m / (l_m * shear);
  give(1, 1) = (l_m + 3 * a_m) / (3 * bending) + 1 / (l_m * shear);
  for (const double spin : {0.0, 100.0, 400.0}) {
    const auto roots = disk_roots(give.inverse(), mass, diametral, polar, spin);
    for (const rotor::WhirlMode& mode :
         rotor::whirl_modes(rotor::rotor_matrices(r), radians_per_second(spin), 2)) {
      const double w = mode.forward ? mode.frequency.value() : -mode.frequency.value();
      expect_outside(
          {fmt::format("overhung disk on a light shaft, spinning with {} rad/s: {}", spin,
                       mode.forward ? "forward" : "backward"),
           "quartic of a disk on two by two flexibility (shaft's mass, 1/4000 of the disk's, left out)",
           Obtained::closed_form, written(nearest(roots, w)), w, "rad/s", 3});
    }
  }
}

// Cantilever with a disk whose 3 Id / m L² is 1: frequencies as multiples of sqrt(3 E I / m L³).
TEST(CriticalSpeedReference, LectureNotesCantileverDisk) {
  const double l_m = 1;
  const rotor::ShaftStep slender{metres(1), metres(0.004), metres(0)};
  const Eigen::Matrix2d k =
      rotor::beam_element(slender, given_steel(), l_m).stiffness.bottomRightCorner<2, 2>();
  const double unit = std::sqrt(3 * e_pa * pi / 64 * std::pow(0.004, 4) / (l_m * l_m * l_m));
  const auto roots = disk_roots(k, 1, 1.0 / 3, 2.0 / 3, 0);
  const std::string source =
      "lecture notes on rotor dynamics, 5.3, figure 5.31 (numbers read off it in the text)";
  expect_outside({"cantilever with a disk, not spinning: lower frequency", source, Obtained::read, "0.74",
                  nearest(roots, 0.74 * unit) / unit, "", 1});
  expect_outside({"the same: higher frequency", source, Obtained::read, "2.73",
                  nearest(roots, 2.73 * unit) / unit, "", 3});
}

// A 1 in shaft of 31 in with 35 lbf at 7 in and 55 lbf at 20 in; the book leaves out the shaft's own mass,
// which here is as light as may be.
TEST(CriticalSpeedReference, TextbookShaftWithTwoGears) {
  constexpr double in = 0.0254, lb = 0.45359237, psi = 4.4482216152605 / (in * in);
  rotor::Rotor r = even_shaft(31 * in, 1 * in, 0, 31 * in);
  r.material.modulus = pascals(30e6 * psi);
  r.material.density = kilograms_per_cubic_metre(500);
  r.impeller = {metres(7 * in), kilograms(35 * lb), kilogram_square_metres(0), kilogram_square_metres(0)};
  r.others = {{metres(20 * in), kilograms(55 * lb), kilogram_square_metres(0), kilogram_square_metres(0)}};
  const double first = rotor::critical_speeds(rotor::rotor_matrices(r), 1).forward.at(0).value();
  const std::string source = "Shigley's Mechanical Engineering Design, 9th ed., example 7-5 (inputs read)";
  expect_outside({"1 in shaft with two gears: first critical speed by Rayleigh",
                  source + ", 124.8 rad/s remembered", Obtained::remembered, "124.8", first, "rad/s", 2});
  EXPECT_GT(first, 120.2) << "Dunkerley's estimate, remembered, is never too high";
  EXPECT_LT(first, 124.8) << "Rayleigh's estimate is never too low";
}

TEST(CriticalSpeedReference, WeightlessOverhungShaftUnderAnImpeller) {
  // 28 mm, 90 mm overhung, 150 mm between bearings, 5 kg: (30/pi) sqrt(g / sag). The shaft's mass and its
  // shear lower it.
  const double d_m = 0.028, a_m = 0.09, l_m = 0.15;
  rotor::Rotor r = even_shaft(a_m + l_m, d_m, a_m, a_m + l_m);
  r.material.density = kilograms_per_cubic_metre(500);
  r.impeller = {metres(0), kilograms(5), kilogram_square_metres(0), kilogram_square_metres(0)};
  const double sag_m = 5 * 9.80665 *
                       (a_m * a_m * (a_m + l_m) / (3 * e_pa * pi / 64 * std::pow(d_m, 4)) +
                        a_m / (kappa * e_pa / 2.6 * pi / 4 * d_m * d_m) * (1 + a_m / l_m));
  expect_outside(
      {"impeller of 5 kg on an overhung shaft: critical speed from its sag", "(30 / pi) sqrt(g / sag)",
       Obtained::closed_form, written(30 / pi * std::sqrt(9.80665 / sag_m)),
       rotor::critical_speeds(rotor::rotor_matrices(r), 1).forward.at(0).value() * 30 / pi, "r/min", 2});
}

}  // namespace
}  // namespace pumpwright::testing
