#include <algorithm>
#include <array>
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/assembly/shaft_alignment_feet.h"
#include "engine/assembly/shaft_alignment_shims.h"
#include "tests/support/given_alignment.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

using alignment::BaseOn;
using alignment::Dial;
using alignment::DialOn;
using alignment::DialResult;
using alignment::Feet;
using alignment::ShaftLine;

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10'001) * 1e-4;
}

std::vector<double> any_places() {
  const int count = *rc::gen::inRange(4, 13);
  std::vector<double> places;
  for (int i = 0; i < count; ++i)  // spread over the turn, none twice
    places.push_back(2 * pi * (i + between(-0.3, 0.3)) / count);
  return places;
}

Dial any_dial(DialOn on, double at_m) {
  Dial d;
  d.on = on;
  d.at = metres(at_m);
  d.base = *rc::gen::element(BaseOn::fixed_shaft, BaseOn::moved_shaft);
  d.plunger_in = *rc::gen::element(PlungerIn::plus, PlungerIn::minus);
  if (on == DialOn::face) {
    d.radius = metres(between(0.03, 0.2));
    d.far_side = *rc::gen::arbitrary<bool>();
  } else {
    d.sag = BarSag{metres(between(-200e-6, 0)), radians(0), metres(0)};
  }
  return d;
}

TEST(ShaftAlignmentProperty, APlantedLineIsRecoveredAndTheMovesTakeItAway) {
  hold("planted line", [] {
    const GivenLine planted{between(-1e-3, 1e-3), between(-1e-3, 1e-3), between(-2e-3, 2e-3),
                            between(-2e-3, 2e-3)};
    const bool with_face = *rc::gen::arbitrary<bool>();
    std::array<Dial, 2> dials{any_dial(DialOn::rim, between(-0.2, -0.05)),
                              any_dial(with_face ? DialOn::face : DialOn::rim, between(0.05, 0.2))};
    std::array<DialResult, 2> results;
    for (std::size_t d = 0; d < 2; ++d) {
      dials[d].readings = given_readings(dials[d], planted, any_places());
      results[d] = evaluate_dial(dials[d], nullptr);
      RC_ASSERT(results[d].valid);
    }
    const Length coupling = metres(between(-0.1, 0.1));
    const ShaftLine line = shaft_line(dials, results, coupling);
    RC_ASSERT(std::abs(line.up_m - (planted.up_m + coupling.value() * planted.up_slope)) < 1e-11);
    RC_ASSERT(std::abs(line.right_m - (planted.right_m + coupling.value() * planted.right_slope)) < 1e-11);
    RC_ASSERT(std::abs(line.up_slope - planted.up_slope) < 1e-10);
    RC_ASSERT(std::abs(line.right_slope - planted.right_slope) < 1e-10);

    Feet moved{metres(between(0.2, 0.5)), metres(between(0.6, 1.5)), metres(between(0, 1e-3)),
               metres(between(0, 1e-3))};
    const Feet fixed{metres(between(-0.5, -0.2)), metres(between(-1.5, -0.6)), metres(between(0, 1e-3)),
                     metres(between(0, 1e-3))};
    const ShaftLine warm = warm_line(line, coupling, moved, fixed);
    const auto moves = moves_for(warm, coupling, moved);
    const ShaftLine after = line_after(warm, coupling, moved, moves.front, moves.back);
    RC_ASSERT(after.offset().value() < 1e-15);
    RC_ASSERT(after.angularity().value() < 1e-15);
  });
}

TEST(ShaftAlignmentProperty, NoOtherPackComesNearerAndAnyBeatsNone) {
  hold("packs", [] {
    std::vector<Length> stock;
    const int count = *rc::gen::inRange(1, 7);
    for (int i = 0; i < count; ++i)
      stock.push_back(metres(between(25e-6, 2e-3)));
    const Length wanted = metres(between(0, 4e-3));
    const auto pack = alignment::nearest_pack(wanted, stock, 3);
    double best = wanted.value();
    for (const Length& a : stock)
      for (std::size_t j = 0; j <= stock.size(); ++j)
        for (std::size_t k = 0; k <= stock.size(); ++k) {
          const double sum = a.value() + (j < stock.size() ? stock[j].value() : 0) +
                             (k < stock.size() ? stock[k].value() : 0);
          best = std::min(best, std::abs(wanted.value() - sum));
        }
    RC_ASSERT(pack.shims.size() <= 3U);
    RC_ASSERT(std::abs(std::abs(pack.left.value()) - best) < 1e-11);
    RC_ASSERT(std::abs(pack.left.value()) <= wanted.value());
    RC_ASSERT(std::is_sorted(pack.shims.rbegin(), pack.shims.rend()));
  });
}

}  // namespace
}  // namespace pumpwright::testing
