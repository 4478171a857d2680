// What must hold for every sweep, whatever was read.
#include <algorithm>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/metrology/sweep.h"
#include "engine/quantity/bad_input.h"
#include "tests/support/hold.h"

namespace pumpwright {
namespace {

using testing::hold;

constexpr int cases = 1000;

double real_in(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1000001) / 1e6;
}

// Places jittered by at most a quarter of their spacing, readings of any kind within ±0.2 mm.
std::vector<SweepReading> any_sweep() {
  const int count = *rc::gen::inRange(3, 40);
  std::vector<SweepReading> readings;
  for (int i = 0; i < count; ++i) {
    const double place_deg = 360.0 / count * (i + real_in(-0.25, 0.25));
    readings.push_back({degrees(place_deg), metres(real_in(-2e-4, 2e-4))});
  }
  return readings;
}

double apart_rad(double a, double b) {
  const double d = std::fabs(std::remainder(a - b, 2 * pi));
  return d;
}

TEST(SweepProperties, TurningEveryPlaceTurnsEveryDirectionAndNothingElse) {
  hold(
      "rotation",
      [] {
        auto readings = any_sweep();
        const SweepResult before = evaluate_sweep(readings, {});
        const double by_rad = real_in(-10, 10);
        for (SweepReading& r : readings)
          r.angle += radians(by_rad);
        const SweepResult after = evaluate_sweep(readings, {});
        RC_ASSERT(after.carried_order == before.carried_order);
        RC_ASSERT(std::fabs((after.eccentricity.value - before.eccentricity.value).value()) < 1e-14);
        RC_ASSERT(std::fabs((after.tir_fitted.value - before.tir_fitted.value).value()) < 1e-12);
        RC_ASSERT(std::fabs((after.missed_tir.worst_phase - before.missed_tir.worst_phase).value()) < 1e-14);
        RC_ASSERT(after.high_spot.has_value() == before.high_spot.has_value());
        if (before.high_spot) {
          RC_ASSERT(apart_rad(after.high_spot->value(), before.high_spot->value() + by_rad) < 1e-8);
        }
        for (std::size_t k = 0; k < before.harmonics.size(); ++k) {
          const auto order = static_cast<double>(before.harmonics[k].order);
          if (before.harmonics[k].amplitude.value() < 1e-7) continue;
          RC_ASSERT(apart_rad(order * after.harmonics[k].phase.value(),
                              order * (before.harmonics[k].phase.value() + by_rad)) < 1e-6);
        }
      },
      cases);
}

TEST(SweepProperties, AnotherZeroOfTheIndicatorChangesOnlyTheMean) {
  hold(
      "offset",
      [] {
        auto readings = any_sweep();
        const SweepResult before = evaluate_sweep(readings, {});
        const double by_m = real_in(-5e-3, 5e-3);
        for (SweepReading& r : readings)
          r.reading += metres(by_m);
        const SweepResult after = evaluate_sweep(readings, {});
        RC_ASSERT(std::fabs((after.mean - before.mean).value() - by_m) < 1e-14);
        RC_ASSERT(std::fabs((after.vector[0] - before.vector[0]).value()) < 1e-14);
        RC_ASSERT(std::fabs((after.vector[1] - before.vector[1]).value()) < 1e-14);
        RC_ASSERT(std::fabs((after.tir.value - before.tir.value).value()) < 1e-15);
        RC_ASSERT(std::fabs((after.ront - before.ront).value()) < 1e-14);
      },
      cases);
}

TEST(SweepProperties, EverythingScalesWithTheReadings) {
  hold(
      "scale",
      [] {
        auto readings = any_sweep();
        const SweepResult before = evaluate_sweep(readings, {});
        const double factor = real_in(0.1, 50);
        for (SweepReading& r : readings)
          r.reading *= factor;
        const SweepResult after = evaluate_sweep(readings, {});
        const auto scaled = [factor](Length small, Length large) {
          return std::fabs(factor * small.value() - large.value()) < 1e-13 * factor;
        };
        RC_ASSERT(scaled(before.tir.value, after.tir.value));
        RC_ASSERT(scaled(before.tir_fitted.value, after.tir_fitted.value));
        RC_ASSERT(scaled(before.eccentricity.value, after.eccentricity.value));
        RC_ASSERT(scaled(before.ronq, after.ronq));
        RC_ASSERT(before.suspects.size() == after.suspects.size());
        if (before.vector_uncertainty)
          RC_ASSERT(scaled(before.vector_uncertainty->u, after.vector_uncertainty->u));
      },
      cases);
}

TEST(SweepProperties, ChangingTheNeedlesSignTurnsTheHighSpotHalfRound) {
  hold(
      "sign",
      [] {
        const auto readings = any_sweep();
        const SweepResult plus = evaluate_sweep(readings, {});
        const SweepSetup minus_setup{.plunger_in = PlungerIn::minus};
        const SweepResult minus = evaluate_sweep(readings, minus_setup);
        RC_ASSERT(std::fabs((plus.tir.value - minus.tir.value).value()) < 1e-16);
        RC_ASSERT(readings[plus.highest].reading == readings[minus.lowest].reading);
        if (plus.high_spot) {
          RC_ASSERT(minus.high_spot.has_value());
          RC_ASSERT(apart_rad(plus.high_spot->value() + pi, minus.high_spot->value()) < 1e-9);
        }
        const SweepSetup bore{.surface = Surface::inside, .plunger_in = PlungerIn::minus};
        RC_ASSERT(evaluate_sweep(readings, bore).vector[0] == plus.vector[0]);
      },
      cases);
}

TEST(SweepProperties, TheOrderOfTheLinesDoesNotMatter) {
  hold(
      "order of lines",
      [] {
        auto readings = any_sweep();
        const SweepResult before = evaluate_sweep(readings, {});
        // The first line tells where a turn begins, so it stays.
        std::reverse(readings.begin() + 1, readings.end());
        const SweepResult after = evaluate_sweep(readings, {});
        RC_ASSERT(std::fabs((after.vector[0] - before.vector[0]).value()) < 1e-14);
        RC_ASSERT(after.tir.value == before.tir.value);
        RC_ASSERT(after.suspects.size() == before.suspects.size());
      },
      cases);
}

TEST(SweepProperties, FiguresKeepTheirOrderOfMagnitude) {
  hold(
      "bounds",
      [] {
        const SweepResult r = evaluate_sweep(any_sweep(), {});
        RC_ASSERT(r.tir.value.value() >= 0);
        RC_ASSERT(r.ronq <= r.ront + metres(1e-18));  // both are rounding alone after three readings
        RC_ASSERT(r.missed_tir.fitted.value() >= 0);
        RC_ASSERT(r.missed_tir.worst_phase.value() >= 0);
        RC_ASSERT(r.missed_tir.worst_phase <= 2.0 * r.eccentricity.value);
        RC_ASSERT(r.harmonics.size() == static_cast<std::size_t>(r.carried_order));
        for (const Harmonic& h : r.harmonics) {
          RC_ASSERT(h.amplitude.value() >= 0);
          RC_ASSERT(h.phase.value() >= 0);
          RC_ASSERT(h.phase.value() <= 2 * pi / h.order);
        }
      },
      cases);
}

// The claim behind worst_phase, checked by trying every phase.
TEST(SweepProperties, NoPhaseLosesMoreThanTheWorst) {
  hold(
      "worst phase",
      [] {
        auto readings = any_sweep();
        const SweepResult swept = evaluate_sweep(readings, {});
        const double e_m = swept.eccentricity.value.value();
        double most_lost_m = 0;
        for (int step = 0; step < 720; ++step) {
          double low = HUGE_VAL;
          double high = -HUGE_VAL;
          for (const SweepReading& r : readings) {
            const double v = e_m * std::cos(r.angle.value() - step * pi / 360);
            low = std::min(low, v);
            high = std::max(high, v);
          }
          most_lost_m = std::max(most_lost_m, 2 * e_m - (high - low));
        }
        const double stated_m = swept.missed_tir.worst_phase.value();
        RC_ASSERT(most_lost_m <= stated_m * (1 + 1e-9) + 1e-18);
        RC_ASSERT(most_lost_m >=
                  stated_m - 0.01 * e_m);  // and it is not a mere bound: some phase comes close
      },
      300);
}

// For surfaces made of carried orders only, what was read and what was missed are the whole.
TEST(SweepProperties, ReadPlusMissedIsTheWholeForCarriedSurfaces) {
  hold(
      "read plus missed",
      [] {
        const int count = *rc::gen::inRange(8, 30);
        std::vector<double> a{0}, b{0};
        for (int k = 1; k <= 3; ++k) {
          a.push_back(real_in(-2e-5, 2e-5));
          b.push_back(real_in(-2e-5, 2e-5));
        }
        const auto at = [&](double theta) {
          double sum = 0;
          for (int k = 1; k <= 3; ++k)
            sum += a[static_cast<std::size_t>(k)] * std::cos(k * theta) +
                   b[static_cast<std::size_t>(k)] * std::sin(k * theta);
          return sum;
        };
        std::vector<SweepReading> readings;
        for (int i = 0; i < count; ++i) {
          const double theta = 2 * pi * (i + real_in(-0.2, 0.2)) / count;
          readings.push_back({radians(theta), metres(at(theta))});
        }
        const SweepResult r = evaluate_sweep(readings, {});
        RC_PRE(r.carried_order >= 3);
        double low = HUGE_VAL;
        double high = -HUGE_VAL;
        for (int i = 0; i < 20000; ++i) {
          const double v = at(2 * pi * i / 20000);
          low = std::min(low, v);
          high = std::max(high, v);
        }
        // The grid is at most (π/20000)²/2 · Σ k² amplitude below the truth.
        const double grid_m = 1.3e-8 * 14 * 6e-5;
        const double whole_m = (r.tir.value + r.missed_tir.fitted).value();
        RC_ASSERT(whole_m >= high - low - 1e-13);
        RC_ASSERT(whole_m <= high - low + grid_m + 1e-13);
      },
      200);
}

TEST(SweepProperties, AnyColumnOfNumbersIsEvaluatedOrRefused) {
  hold(
      "no crash",
      [] {
        const int count = *rc::gen::inRange(0, 20);
        std::vector<SweepReading> readings;
        for (int i = 0; i < count; ++i) {
          const int kind = *rc::gen::inRange(0, 8);
          const double angle = kind == 0 ? 1e300 : kind == 1 ? std::nan("") : real_in(-800, 800);
          const double rounded = kind < 5 ? 45 * std::round(angle / 45) : angle;
          readings.push_back({degrees(rounded), metres(kind == 2 ? HUGE_VAL : real_in(-1e-3, 1e-3))});
        }
        try {
          const SweepResult r = evaluate_sweep(readings, {});
          RC_ASSERT(std::isfinite(r.eccentricity.value.value()));
          RC_ASSERT(std::isfinite(r.tir_fitted.value.value()));
        } catch (const BadInput&) {
          RC_SUCCEED("refused");
        }
      },
      3000);
}

}  // namespace
}  // namespace pumpwright
