#include <algorithm>
#include <cmath>
#include <complex>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/rotor/balance_places.h"
#include "engine/rotor/balance_removal.h"
#include "engine/rotor/balance_solution.h"
#include "tests/support/hold.h"

namespace pumpwright::rotor {
namespace {

using testing::hold;
using Complex = std::complex<double>;

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10'001) * 1e-4;
}

Complex any_vector(double least, double most) {
  return std::polar(between(least, most), between(0, 2 * pi));
}

AngleSense any_sense() {
  return {*rc::gen::element(PlacesRise::against_rotation, PlacesRise::with_rotation),
          *rc::gen::element(PhaseIs::lag, PhaseIs::lead)};
}

// A machine that answers in proportion, planes told apart, with an unbalance in each plane.
struct Machine {
  AngleSense sense;
  std::vector<Complex> planted;             // [kg·m]
  std::vector<std::vector<Complex>> alpha;  // by sensor and plane

  std::vector<VibrationVector> reads(const std::vector<FittedWeight>& fitted) const {
    std::vector<VibrationVector> all;
    for (const auto& row : alpha) {
      Complex v = 0;
      for (std::size_t p = 0; p < planted.size(); ++p)
        v += row[p] * (planted[p] + fitted_in({fitted, {}}, p, sense));
      all.push_back(vibration_of(v, sense));
    }
    return all;
  }
};

Machine any_machine() {
  Machine m;
  m.sense = any_sense();
  const std::size_t planes = *rc::gen::element<std::size_t>(1, 2);
  const std::size_t sensors = planes + *rc::gen::inRange<std::size_t>(0, 3);
  for (std::size_t p = 0; p < planes; ++p)
    m.planted.push_back(any_vector(1e-5, 1e-3));
  for (std::size_t s = 0; s < sensors; ++s) {
    m.alpha.emplace_back();
    // Each sensor answers mostly to one plane, so that no plane hides behind the other.
    for (std::size_t p = 0; p < planes; ++p)
      m.alpha.back().push_back(s % planes == p ? any_vector(5, 20) : any_vector(0.1, 3));
  }
  return m;
}

FittedWeight any_weight(std::size_t plane, const AngleSense& sense) {
  return {plane, unbalance_of(any_vector(5e-5, 1e-3), sense), *rc::gen::arbitrary<bool>()};
}

BalanceRuns runs_on(const Machine& m) {
  BalanceRuns data;
  data.sense = m.sense;
  data.planes = m.planted.size();
  data.sensors.resize(m.alpha.size());
  std::vector<FittedWeight> fitted;
  data.runs.push_back({fitted, m.reads(fitted)});
  const bool kept = *rc::gen::arbitrary<bool>();
  for (std::size_t p = 0; p < data.planes; ++p) {
    if (!kept) fitted.clear();
    fitted.push_back(any_weight(p, m.sense));
    data.runs.push_back({fitted, m.reads(fitted)});
  }
  return data;
}

TEST(BalanceProperty, APlantedUnbalanceIsRecoveredAndItsCorrectionLeavesNothing) {
  hold("recovery", [] {
    const Machine m = any_machine();
    const BalanceRuns data = runs_on(m);
    const auto solution = solve_balance(data, influence_of(data));
    std::vector<FittedWeight> corrected = data.runs.back().fitted;
    for (std::size_t p = 0; p < data.planes; ++p) {
      const Complex now = m.planted[p] + fitted_in(data.runs.back(), p, m.sense);
      RC_ASSERT(std::abs(solution.remaining[p].value - now) < 1e-9 * 2e-3);
      corrected.push_back({p, unbalance_of(solution.correction[p], m.sense), false});
    }
    for (const auto& reading : m.reads(corrected))
      RC_ASSERT(reading.amplitude < 1e-9);
    for (const auto& left : solution.left_over)
      RC_ASSERT(left.amplitude < 1e-9);
  });
}

TEST(BalanceProperty, TheSenseOfWritingChangesNothingOnTheRotor) {
  hold(
      "sense",
      [] {
        const Machine m = any_machine();
        const BalanceRuns data = runs_on(m);
        BalanceRuns other = data;
        other.sense = any_sense();
        for (auto& run : other.runs) {
          for (auto& w : run.fitted)
            w.unbalance = unbalance_of(complex_of(w.unbalance, data.sense), other.sense);
          for (auto& r : run.readings)
            r = vibration_of(complex_of(r, data.sense), other.sense);
        }
        const auto one = solve_balance(data, influence_of(data));
        const auto two = solve_balance(other, influence_of(other));
        for (std::size_t p = 0; p < data.planes; ++p)
          RC_ASSERT(std::abs(one.correction[p] - two.correction[p]) < 1e-11);
      },
      1000);
}

std::vector<Angle> any_places() {
  const int count = *rc::gen::inRange(3, 13);
  const double first = between(0, 2 * pi);
  std::vector<Angle> places;
  for (int i = 0; i < count; ++i)  // never half a turn between neighbours
    places.push_back(radians(first + 2 * pi * (i + between(-0.2, 0.2)) / count));
  return places;
}

TEST(BalanceProperty, ASplitAddsUpToTheVector) {
  hold("split", [] {
    const AngleSense sense;
    const UnbalanceVector wanted = unbalance_of(any_vector(1e-6, 1e-3), sense);
    Complex sum = 0;
    for (const auto& part : split_between_places(wanted, any_places())) {
      RC_ASSERT(part.amount.value() >= 0);
      sum += complex_of(UnbalanceVector{part.amount, part.place}, sense);
    }
    RC_ASSERT(std::abs(sum - complex_of(wanted, sense)) < 1e-12 * 1e-3);
  });
}

// Every pair of handfuls of up to two weights, the slow way.
double best_by_trying(Complex target, double first_rad, double second_rad, double radius_m,
                      const std::vector<Mass>& drawer) {
  std::vector<double> sums{0};
  for (std::size_t i = 0; i < drawer.size(); ++i) {
    sums.push_back(drawer[i].value());
    for (std::size_t j = i; j < drawer.size(); ++j)
      sums.push_back((drawer[i] + drawer[j]).value());
  }
  double best = std::abs(target);
  for (const double a : sums)
    for (const double b : sums)
      best = std::min(best,
                      std::abs(target - radius_m * (std::polar(a, first_rad) + std::polar(b, second_rad))));
  return best;
}

TEST(BalanceProperty, NoOtherHandfulComesNearer) {
  hold(
      "weights",
      [] {
        const AngleSense sense;
        const double place_rad = between(0, 1);
        const UnbalanceVector wanted{kilogram_metres(between(1e-6, 1e-3)), radians(place_rad)};
        const std::vector<Angle> places{radians(0), radians(1), radians(3), radians(5)};
        std::vector<Mass> drawer;
        const int count = *rc::gen::inRange(1, 5);
        for (int i = 0; i < count; ++i)
          drawer.push_back(kilograms(between(1e-3, 2e-2)));
        const auto choice = choose_weights(wanted, places, metres(0.05), drawer, 2);
        const double best = best_by_trying(complex_of(wanted, sense), 0, 1, 0.05, drawer);
        RC_ASSERT(std::abs(choice.left.amount.value() - best) <= 1e-12);
        Complex fitted = complex_of(choice.left, sense);
        for (const auto& load : choice.loads)
          fitted += complex_of(UnbalanceVector{load.amount, load.place}, sense);
        RC_ASSERT(std::abs(fitted - complex_of(wanted, sense)) < 1e-15);
      },
      1000);
}

TEST(BalanceProperty, AHoleTakesOutWhatWasWanted) {
  hold("holes", [] {
    Drill d;
    d.direction = *rc::gen::element(DrillDirection::axial, DrillDirection::radial);
    d.radius = metres(between(0.03, 0.3));
    d.diameter = metres(between(0.003, 0.02));
    d.point = degrees(between(90, 180));
    d.density = kilograms_per_cubic_metre(between(2000, 9000));
    d.most_depth = metres(between(0.002, 0.025));
    const Unbalance wanted = between(0.001, 0.999) * drilled_out(d, d.most_depth);
    const auto hole = hole_for(d, wanted);
    RC_ASSERT(hole.has_value());
    RC_ASSERT(std::abs(drilled_out(d, hole->to_tip) / wanted - 1) < 1e-9);
    RC_ASSERT(!hole_for(d, 1.01 * drilled_out(d, d.most_depth)).has_value());
  });
}

}  // namespace
}  // namespace pumpwright::rotor
