// How long a sweep takes to evaluate, beside Eigen's plain QR of the same harmonic columns.
//
//   evaluate_sweep   everything: set-up, places, fit of all carried orders, covariance, region and high spot,
//   TIR of the
//                    fitted curve, form, suspects, repeats
//   eigen_qr         Eigen's HouseholderQR on the same design (built inside the timing) and the solution only
//   eigen_qr_cov     the same with (XᵀX)⁻¹ from R, which a statement of uncertainty needs
// sweep_fit_reference.py times NumPy's lstsq on the same designs. Single thread; the design is that of the
// orders carried: 5 for 12 even places, 10 for 3600.
#include <cmath>
#include <random>
#include <vector>

#include <Eigen/Dense>
#include <benchmark/benchmark.h>

#include "engine/metrology/sweep.h"

namespace pumpwright {
namespace {

std::vector<SweepReading> readings_of(int count) {
  std::mt19937_64 random(7);
  std::normal_distribution<double> noise(0, 1e-6);
  std::vector<SweepReading> readings;
  for (int i = 0; i < count; ++i) {
    const double theta = 2 * pi * i / count;
    readings.push_back(
        {radians(theta), metres(30e-6 * std::cos(theta - 0.7) + 5e-6 * std::cos(2 * theta) + noise(random))});
  }
  return readings;
}

void evaluate(benchmark::State& state) {
  const auto readings = readings_of(static_cast<int>(state.range(0)));
  const Instrument dial{.id = "dial", .graduation = metres(2e-6)};
  const SweepSetup setup;
  for (auto _ : state) {
    const SweepResult result = evaluate_sweep(readings, setup, &dial);
    benchmark::DoNotOptimize(result.eccentricity);
  }
}

Eigen::MatrixXd design_of(const std::vector<SweepReading>& readings, int order) {
  Eigen::MatrixXd design(static_cast<Eigen::Index>(readings.size()), 2 * order + 1);
  for (Eigen::Index i = 0; i < design.rows(); ++i) {
    const double theta = readings[static_cast<std::size_t>(i)].angle.value();
    design(i, 0) = 1;
    for (int k = 1; k <= order; ++k) {
      design(i, 2 * k - 1) = std::cos(k * theta);
      design(i, 2 * k) = std::sin(k * theta);
    }
  }
  return design;
}

void eigen_qr(benchmark::State& state, bool covariance) {
  const auto readings = readings_of(static_cast<int>(state.range(0)));
  const int order = evaluate_sweep(readings, {}).carried_order;
  Eigen::VectorXd y(static_cast<Eigen::Index>(readings.size()));
  for (Eigen::Index i = 0; i < y.size(); ++i)
    y(i) = readings[static_cast<std::size_t>(i)].reading.value();
  for (auto _ : state) {
    const Eigen::HouseholderQR<Eigen::MatrixXd> qr(design_of(readings, order));
    const Eigen::VectorXd beta = qr.solve(y);
    benchmark::DoNotOptimize(beta.data());
    if (!covariance) continue;
    const auto columns = beta.size();
    const Eigen::MatrixXd t = qr.matrixQR().topRows(columns).triangularView<Eigen::Upper>().solve(
        Eigen::MatrixXd::Identity(columns, columns));
    const Eigen::MatrixXd cofactor = t * t.transpose();
    benchmark::DoNotOptimize(cofactor.data());
  }
}

void eigen_qr_plain(benchmark::State& state) {
  eigen_qr(state, false);
}
void eigen_qr_cov(benchmark::State& state) {
  eigen_qr(state, true);
}

BENCHMARK(evaluate)->Name("evaluate_sweep")->Arg(12)->Arg(3600)->Unit(benchmark::kMicrosecond);
BENCHMARK(eigen_qr_plain)->Name("eigen_qr")->Arg(12)->Arg(3600)->Unit(benchmark::kMicrosecond);
BENCHMARK(eigen_qr_cov)->Name("eigen_qr_cov")->Arg(12)->Arg(3600)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace pumpwright

BENCHMARK_MAIN();
