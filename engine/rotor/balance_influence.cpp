#include "engine/rotor/balance_influence.h"

#include <algorithm>
#include <cmath>
#include <span>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/metrology/least_squares.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::rotor {
namespace {

using Complex = std::complex<double>;

[[noreturn]] void refuse_runs(std::size_t count, const std::string& expected) {
  throw BadInput({"runs", "", fmt::format("{} runs", count), expected});
}

void require_valid(const BalanceRun& run, const BalanceRuns& data) {
  require_that(run.readings.size() == data.sensors.size(), static_cast<double>(run.readings.size()),
               "runs/readings", "one reading for each sensor");
  for (const auto& reading : run.readings) {
    require_that(std::isfinite(reading.amplitude) && reading.amplitude >= 0, reading.amplitude,
                 "runs/readings/amplitude", "an amplitude of 0 or more");
    require_that(std::isfinite(reading.phase.value()), reading.phase.value(), "runs/readings/phase",
                 "an angle");
  }
  for (const auto& weight : run.fitted) {
    require_that(weight.plane < data.planes, static_cast<double>(weight.plane), "runs/fitted/plane",
                 "one of the planes");
    const double amount = weight.unbalance.amount.value();
    require_that(std::isfinite(amount) && amount >= 0, amount, "runs/fitted",
                 "a mass at a radius, 0 or more");
    require_that(std::isfinite(weight.unbalance.place.value()), weight.unbalance.place.value(),
                 "runs/fitted/angle", "an angle");
  }
}

void require_valid(const BalanceRuns& data) {
  require_between(static_cast<double>(data.planes), 1, planes_max, "planes", "one or two planes");
  require_between(static_cast<double>(data.sensors.size()), static_cast<double>(data.planes), sensors_max,
                  "sensors", fmt::format("at least as many sensors as planes, at most {}", sensors_max));
  if (data.runs.size() < data.planes + 1 || data.runs.size() > runs_max)
    refuse_runs(
        data.runs.size(),
        fmt::format("one run as found and one with a trial weight in each plane, at most {}", runs_max));
  for (const auto& doubt : data.sensors) {
    if (!doubt) continue;
    require_that(std::isfinite(doubt->amplitude_u) && doubt->amplitude_u > 0, doubt->amplitude_u,
                 "sensors/amplitude_u", "an uncertainty over 0");
    require_that(std::isfinite(doubt->phase_u.value()) && doubt->phase_u.value() > 0, doubt->phase_u.value(),
                 "sensors/phase_u", "an uncertainty over 0");
  }
  for (const auto& run : data.runs)
    require_valid(run, data);
}

// Rows of the fit for one sensor: each reading as its two parts along and across its own direction.
struct Rows {
  std::vector<double> design, observed;

  void add(Complex direction, double weight, Complex reading, std::span<const Complex> fitted) {
    const auto part = [&](Complex z) { return weight * (std::conj(direction) * z).real(); };
    design.push_back(part(1));
    design.push_back(part(Complex(0, 1)));
    for (const Complex u : fitted) {
      design.push_back(part(u));
      design.push_back(part(Complex(0, 1) * u));
    }
    observed.push_back(part(reading));
  }
};

struct Weights {
  double along = 1;
  double across = 1;
};

Weights weights_of(const VibrationVector& reading, const std::optional<ReadingDoubt>& doubt) {
  if (!doubt) return {};
  const double across_u = std::max(doubt->amplitude_u, reading.amplitude * doubt->phase_u.value());
  return {1 / doubt->amplitude_u, 1 / across_u};
}

LeastSquares fit(const Rows& rows, std::size_t columns, std::size_t runs) {
  try {
    return fit_least_squares(rows.design, columns, rows.observed);
  } catch (const BadInput&) {
    refuse_runs(runs,
                "runs whose weights differ in every plane, and not in the same proportion in two planes");
  }
}

// Variance of unit weight and its degrees of freedom; nothing when nothing is known.
struct Scale {
  double variance = 1;
  double dof = std::numeric_limits<double>::infinity();
};

std::optional<Scale> scale_of(const LeastSquares& fitted, bool doubt_stated) {
  const auto dof = static_cast<double>(fitted.dof());
  if (fitted.dof() == 0) return doubt_stated ? std::optional<Scale>(Scale{}) : std::nullopt;
  const double s2 = fitted.residual_sum_of_squares / dof;
  if (doubt_stated && s2 <= 1) return Scale{};
  return Scale{s2, dof};
}

SensorInfluence influence_on(const BalanceRuns& data, std::size_t sensor) {
  Rows rows;
  for (const auto& run : data.runs) {
    const VibrationVector& reading = run.readings[sensor];
    const Complex v = complex_of(reading, data.sense);
    const Complex along = std::abs(v) > 0 ? v / std::abs(v) : Complex(1);
    std::vector<Complex> fitted;
    for (std::size_t p = 0; p < data.planes; ++p)
      fitted.push_back(fitted_in(run, p, data.sense));
    const Weights weights = weights_of(reading, data.sensors[sensor]);
    rows.add(along, weights.along, v, fitted);
    rows.add(along * Complex(0, 1), weights.across, v, fitted);
  }
  const std::size_t columns = 2 * (1 + data.planes);
  const LeastSquares found = fit(rows, columns, data.runs.size());
  const bool stated = data.sensors[sensor].has_value();

  SensorInfluence out;
  out.base = {found.coefficients[0], found.coefficients[1]};
  for (std::size_t p = 0; p < data.planes; ++p)
    out.alpha.emplace_back(found.coefficients[2 + 2 * p], found.coefficients[3 + 2 * p]);
  if (stated) out.residual_scale = found.residual_sd();
  if (const auto scale = scale_of(found, stated)) {
    out.covariance = found.cofactor;
    for (double& c : out.covariance)
      c *= scale->variance;
    out.dof = scale->dof;
  }
  return out;
}

}  // namespace

std::complex<double> fitted_in(const BalanceRun& run, std::size_t plane, const AngleSense& sense) {
  Complex sum = 0;
  for (const auto& weight : run.fitted)
    if (weight.plane == plane) sum += (weight.removed ? -1.0 : 1.0) * complex_of(weight.unbalance, sense);
  return sum;
}

std::vector<SensorInfluence> influence_of(const BalanceRuns& data) {
  require_valid(data);
  std::vector<SensorInfluence> all;
  for (std::size_t s = 0; s < data.sensors.size(); ++s)
    all.push_back(influence_on(data, s));
  return all;
}

}  // namespace pumpwright::rotor
