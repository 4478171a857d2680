// The given overhung rotor computed beside by SciPy in another way: the static line by the unit-load
// integrals, the whirl in two real planes with shape functions found and integrated numerically, by
// scipy.linalg.eig.
#include <algorithm>
#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/rotor/response.h"
#include "engine/rotor/whirl.h"
#include "tests/support/given_rotor.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

std::string disk_text(const rotor::Disk& disk) {
  return fmt::format("[{:.17g},{:.17g},{:.17g},{:.17g}]", disk.at.value(), disk.mass.value(),
                     disk.polar.value(), disk.diametral.value());
}

std::string described(const rotor::Rotor& r) {
  std::string steps, supports, disks = disk_text(r.impeller), stations;
  for (const rotor::ShaftStep& s : r.steps)
    steps += fmt::format("{}[{:.17g},{:.17g},{:.17g}]", steps.empty() ? "" : ",", s.length.value(),
                         s.diameter.value(), s.bore.value());
  for (const rotor::Support& s : r.supports)
    supports += fmt::format("{}[{:.17g},{:.17g}]", supports.empty() ? "" : ",", s.at.value(),
                            s.stiffness ? s.stiffness->value() : 0.0);
  for (const rotor::Disk& other : r.others)
    disks += "," + disk_text(other);
  for (const Length& at : r.stations)
    stations += fmt::format("{}{:.17g}", stations.empty() ? "" : ",", at.value());
  return fmt::format(
      "'{{\"modulus\":{:.17g},\"density\":{:.17g},\"poisson\":{:.17g},\"steps\":[{}],\"supports\":[{}],"
      "\"disks\":[{}],"
      "\"stations\":[{}]}}'",
      r.material.modulus.value(), r.material.density.value(), r.material.poisson, steps, supports, disks,
      stations);
}

rotor::Rotor full_rotor(bool rigid) {
  rotor::Rotor r = overhung_rotor();
  r.steps[3].bore = metres(0.012);
  r.others = {rotor::solid_disk(metres(0.29), kilograms(2), metres(0.1), metres(0.04))};
  r.stations = {metres(0.07)};
  if (rigid)
    for (rotor::Support& support : r.supports)
      support.stiffness.reset();
  return r;
}

TEST(LiveRotorReference, StaticLine) {
  for (const bool rigid : {true, false}) {
    const rotor::Rotor r = full_rotor(rigid);
    const auto words = live_words(fmt::format("line {} 0.025 500 0.025 0.07 0.19 0.29", described(r)));
    const rotor::PointForce force{metres(0.025), newtons(500)};
    rotor::Rotor with_places = r;
    with_places.stations = {metres(0.07), metres(0.19), metres(0.29)};
    const auto m = rotor::rotor_matrices(with_places);
    const rotor::Response pulled = rotor::bent_by(m, {&force, 1}), hanging = rotor::bent_by_weight(m);
    const std::string source = live_versions() + ", unit-load integrals of moment and shear";
    std::size_t word = 0;
    for (const double at_m : {0.025, 0.07, 0.19, 0.29}) {
      const std::string name =
          fmt::format("{} bearings, place {} mm: ", rigid ? "rigid" : "springy", at_m * 1e3);
      expect_outside({name + "deflection by 500 N at the impeller", source, Obtained::live, words.at(word++),
                      point_at(pulled, metres(at_m)).deflection.value(), "m", 8});
      expect_outside({name + "sag by its own weight", source, Obtained::live, words.at(word++),
                      point_at(hanging, metres(at_m)).deflection.value(), "m", 8});
    }
  }
}

TEST(LiveRotorReference, WhirlModesOfTheSameElements) {
  const std::string source = live_versions() + ", scipy.linalg.eig of the two-plane state matrix";
  for (const bool rigid : {true, false}) {
    const rotor::Rotor r = full_rotor(rigid);
    for (const double spin : {0.0, 371.755, 1500.0}) {
      const auto words = live_words(fmt::format("modes {} {} 20 3", described(r), spin));
      std::size_t word = 0;
      for (const rotor::WhirlMode& mode :
           rotor::whirl_modes(rotor::rotor_matrices(r, 20), radians_per_second(spin), 3)) {
        if (spin == 0 && !mode.forward) continue;  // both senses are one: compared once
        const std::string name =
            fmt::format("{} bearings, spin {} rad/s, mode {} {}", rigid ? "rigid" : "springy", spin, word + 1,
                        mode.forward ? "forward" : "backward");
        const double w = mode.forward ? mode.frequency.value() : -mode.frequency.value();
        expect_outside({name, source, Obtained::live, words.at(word++), w, "rad/s", 7});
      }
      EXPECT_EQ(word, words.size());
    }
  }
}

TEST(LiveRotorReference, CriticalSpeeds) {
  const rotor::Rotor r = full_rotor(false);
  const auto words = live_words(fmt::format("critical {} 20 2", described(r)));
  const auto critical = rotor::critical_speeds(rotor::rotor_matrices(r, 20), 2);
  const std::string source = live_versions() + ", scipy.optimize.brentq on scipy.linalg.eig's modes";
  std::vector<std::pair<std::string, double>> ours;
  for (const Speed& at : critical.forward)
    ours.emplace_back("forward", at.value());
  ours.resize(std::min<std::size_t>(ours.size(), 1));
  for (const Speed& at : critical.backward)
    ours.emplace_back("backward", at.value());
  ASSERT_EQ(words.size(), ours.size());
  for (std::size_t i = 0; i < ours.size(); ++i)
    expect_outside({fmt::format("critical speed, {} ({} of the list)", ours[i].first, i + 1), source,
                    Obtained::live, words[i], ours[i].second, "rad/s", 7});
}

}  // namespace
}  // namespace pumpwright::testing
