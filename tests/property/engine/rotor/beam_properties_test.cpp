// What holds of every bent shaft: statics, superposition, Maxwell's reciprocity.
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/rotor/response.h"
#include "tests/property/engine/rotor/random_rotor.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

using rotor::PointForce;

constexpr int cases = 200;

struct Loaded {
  rotor::Rotor rotor = any_rotor();
  PointForce a{between(0, 1) * rotor::length_of(rotor.steps), newtons(between(-2000, 2000))};
  PointForce b{between(0, 1) * rotor::length_of(rotor.steps), newtons(between(-2000, 2000))};
  rotor::RotorMatrices m;

  Loaded() {
    rotor.stations = {a.at, b.at};
    m = rotor::rotor_matrices(rotor);
    a.at = metres(m.mesh.node_m[rotor::node_at(m.mesh, a.at)]);
    b.at = metres(m.mesh.node_m[rotor::node_at(m.mesh, b.at)]);
  }
};

TEST(BeamProperty, BearingsHoldForcesAndMomentsInBalance) {
  hold(
      "statics",
      [] {
        const Loaded l;
        const std::array forces{l.a, l.b};
        const rotor::Response r = rotor::bent_by(l.m, forces);
        double force_n = 0, moment_nm = 0, scale_n = 1;
        for (const PointForce& f : forces) {
          force_n += f.force.value();
          moment_nm += f.force.value() * f.at.value();
          scale_n += std::fabs(f.force.value());
        }
        for (std::size_t i = 0; i < 2; ++i) {
          force_n -= r.bearing[i].value();
          moment_nm -= r.bearing[i].value() * l.m.mesh.node_m[l.m.mesh.support_node[i]];
        }
        const double length_m = rotor::length_of(l.rotor.steps).value();
        RC_ASSERT(std::fabs(force_n) < 1e-10 * scale_n);
        RC_ASSERT(std::fabs(moment_nm) < 1e-10 * scale_n * length_m);
      },
      cases);
}

TEST(BeamProperty, BentByTwoForcesIsTheSumOfEach) {
  hold(
      "superposition",
      [] {
        const Loaded l;
        const std::array both{l.a, l.b};
        const rotor::Response sum = rotor::bent_by(l.m, both);
        const rotor::Response a = rotor::bent_by(l.m, {&l.a, 1}), b = rotor::bent_by(l.m, {&l.b, 1});
        for (std::size_t i = 0; i < sum.line.size(); ++i) {
          const double parts_m = (a.line[i].deflection + b.line[i].deflection).value();
          const double scale_m =
              std::fabs(a.line[i].deflection.value()) + std::fabs(b.line[i].deflection.value()) + 1e-9;
          RC_ASSERT(std::fabs(sum.line[i].deflection.value() - parts_m) < 1e-8 * scale_m);
        }
      },
      cases);
}

TEST(BeamProperty, AForceHereBendsThereAsMuchAsThereHere) {
  hold(
      "reciprocity",
      [] {
        const Loaded l;
        const PointForce here{l.a.at, newtons(1000)}, there{l.b.at, newtons(1000)};
        const rotor::Response by_here = rotor::bent_by(l.m, {&here, 1}),
                              by_there = rotor::bent_by(l.m, {&there, 1});
        const double scale_m = std::fabs(point_at(by_here, here.at).deflection.value()) +
                               std::fabs(point_at(by_there, there.at).deflection.value()) + 1e-9;
        RC_ASSERT(std::fabs((point_at(by_here, there.at).deflection - point_at(by_there, here.at).deflection)
                                .value()) < 1e-8 * scale_m);
      },
      cases);
}

TEST(BeamProperty, AForceNeverMovesItsPlaceAgainstItself) {
  hold(
      "positive work",
      [] {
        const Loaded l;
        const PointForce pull{l.a.at, newtons(1000)};
        RC_ASSERT(point_at(rotor::bent_by(l.m, {&pull, 1}), pull.at).deflection.value() > -1e-12);
      },
      cases);
}

TEST(BeamProperty, WhereTheElementsAreCutDoesNotMatter) {
  hold(
      "division",
      [] {
        const Loaded l;
        const rotor::RotorMatrices fine = rotor::rotor_matrices(l.rotor, 90);
        const rotor::Response coarse_weight = rotor::bent_by_weight(l.m),
                              fine_weight = rotor::bent_by_weight(fine);
        const Length at = l.rotor.impeller.at;
        const double coarse_m = point_at(coarse_weight, at).deflection.value();
        RC_ASSERT(std::fabs(coarse_m - point_at(fine_weight, at).deflection.value()) <
                  1e-6 * std::fabs(coarse_m) + 1e-12);
      },
      cases);
}

}  // namespace
}  // namespace pumpwright::testing
