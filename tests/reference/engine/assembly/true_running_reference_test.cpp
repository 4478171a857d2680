// The attribution of runout beside NumPy and SciPy, and beside closed forms.
#include <cmath>
#include <numbers>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/assembly/true_attribution.h"
#include "engine/assembly/true_centring.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"
#include "tests/support/synthetic_rotor.h"

namespace pumpwright::testing {
namespace {

using namespace true_running;

template <class Chain>
std::vector<double> rows_of(const std::vector<Station<Chain>>& stations) {
  std::vector<double> out;
  for (const auto& s : stations) {
    out.insert(out.end(), {static_cast<double>(s.part), s.surface == Surface::face ? 1.0 : 0.0, s.at.value(),
                           s.radius.value(), s.vector.toward_0.value(), s.vector.toward_90.value()});
    out.insert(out.end(), s.covariance.begin(), s.covariance.end());
  }
  return out;
}

// Nine digits of everything: probabilities, vectors, covariances.
template <class Chain>
void expect_as_numpy(const char* kind, const std::vector<NamedError<Chain>>& planted, std::uint64_t number) {
  const auto c = synthetic_case<Chain>(number, planted, {.ratio = 8, .more_stations = true});
  const auto a = attribute<Chain>(std::span<const Station<Chain>>(c.stations), c.geometry);
  const SampleFile file(rows_of(c.stations));
  const auto live = live_words(fmt::format("true_running {} {}", kind, file.path()));
  const auto check = [&](const std::string& what, const std::string& outside, double ours) {
    expect_outside({fmt::format("true running, {}: {}", kind, what), live_versions(), Obtained::live, outside,
                    ours, "", 9});
  };
  check("probability of the best", live[0], a.hypotheses[0].probability);
  // A case so clear that nothing else keeps a ten-thousandth has no second.
  if (a.hypotheses.size() > 1) check("probability of the second", live[1], a.hypotheses[1].probability);
  ASSERT_FALSE(a.best().blames.empty());
  ASSERT_EQ(live.size(), 5 + 6 * a.best().blames.size());
  EXPECT_EQ(live[3], word_for(a.best().blames[0].fault));
  for (std::size_t i = 0; i < a.best().blames.size(); ++i) {
    const auto& b = a.best().blames[i];
    const std::complex<double> v = b.offset ? b.offset->si() : b.tilt->si();
    const std::size_t at = 5 + 6 * i;
    check("error along 0", live[at], v.real());
    check("error along 90", live[at + 1], v.imag());
    check("its variance along 0", live[at + 2], b.covariance[0]);
    check("its variance along 90", live[at + 5], b.covariance[3]);
  }
}

TEST(TrueRunningReference, RotatingAsGeneralisedLeastSquaresInNumPy) {
  expect_as_numpy<Rotating>("rotating", {{Fault::sleeve_not_home, ""}}, 1);
  expect_as_numpy<Rotating>("rotating", {{Fault::bent_shaft, ""}, {Fault::impeller_off_centre, ""}}, 2);
}

TEST(TrueRunningReference, StandingAsGeneralisedLeastSquaresInNumPy) {
  expect_as_numpy<Standing>("standing", {{Fault::bracket_off_centre, ""}}, 3);
  expect_as_numpy<Standing>("standing", {{Fault::face_out_of_square, ""}, {Fault::seat_out_of_square, ""}},
                            4);
}

Station<Rotating> impeller_station(Surface surface) {
  return {.id = "impeller",
          .part = Rotating::Part::impeller,
          .surface = surface,
          .at = metres(0.101),
          .radius = metres(0.070),
          .covariance = {1e-12, 0, 0, 1e-12}};
}

std::size_t index_of(Fault fault) {
  std::size_t j = 0;
  while (faults_of(Rotating{})[j].fault != fault)
    ++j;
  return j;
}

TEST(TrueRunningReference, TirOfAnOffsetAndOfATilt) {
  const RotatingGeometry g{metres(0), metres(0.035), metres(0.073)};
  // 3 thou off centre read 6 thou.
  const auto radial = seen_at(impeller_station(Surface::radial), g);
  const double e_m = 76.2e-6;
  expect_outside({"TIR of a pure offset of 3 thou",
                  "TIR = 2 e: definition of the eccentricity of a round section", Obtained::closed_form,
                  "152.4", 2 * std::abs(radial[index_of(Fault::impeller_off_centre)]) * e_m * 1e6, "µm", 4});
  // A face 140 mm across, out of square by 1 mrad, reads 0.14 mm.
  const auto face = seen_at(impeller_station(Surface::face), g);
  expect_outside({"TIR of a face out of square by 1 mrad", "TIR = diameter x tilt", Obtained::closed_form,
                  "0.14", 2 * std::abs(face[index_of(Fault::impeller_out_of_square)]) * 1e-3 * 1e3, "mm", 2});
  // 6 thou per inch over 0.75 inch of bore: 4.5 thou off, 9 thou read.
  const Station<Rotating> out{.id = "x", .part = Rotating::Part::impeller, .at = metres(0.073 + 0.01905)};
  expect_outside({"TIR of 6 thou per inch, 0.75 in out", "2 x 6 x 0.75", Obtained::closed_form, "9",
                  2 * std::abs(seen_at(out, g)[index_of(Fault::impeller_not_home)]) * 6e-3 / 25.4e-6, "thou",
                  1});
}

TEST(TrueRunningReference, AMoveTowardsTheCentreLowersTheTirByTwiceItself) {
  const auto offset = Offset<Standing>::from_si(std::polar(4.5 * 25.4e-6, 2 * pi / 3));
  const Centring c = centre(offset, metres(3 * 25.4e-6));
  expect_outside({"9 thou, bracket moved 3: reads", "9 - 2 x 3", Obtained::closed_form, "3",
                  c.after.value.value() / 25.4e-6, "thou", 1});
  expect_outside({"move from 4 o'clock goes towards", "opposite: 10 o'clock, 300 degrees",
                  Obtained::closed_form, "300", degrees_of(c.toward.angle), "°", 3});
}

TEST(TrueRunningReference, RegionOfAVectorIsThatOfChiSquare) {
  expect_outside({"95 % point of chi-square with 2 degrees of freedom", "-2 ln 0.05", Obtained::closed_form,
                  "5.991464547", region_95, "", 9});
}

}  // namespace
}  // namespace pumpwright::testing
