#include "engine/assembly/true_assumptions.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace pumpwright::true_running {
namespace {

template <class Chain>
std::vector<double> weights(const LinearModel& model, const Beliefs& beliefs) {
  std::vector<double> out;
  for (const auto& f : faults_of(Chain{}))
    out.push_back(f.weight);
  out.resize(static_cast<std::size_t>(model.errors()), beliefs.loose_weight);
  for (std::size_t j = 0; j < out.size(); ++j)
    if (model.seen.col(static_cast<Eigen::Index>(j)).isZero(0)) out[j] = 0;
  return out;
}

// Every assumption, with its prior probability.
std::vector<Assumption> assumptions_of(const std::vector<double>& weight, const Beliefs& beliefs) {
  double one = 0, two = 0;
  for (const double w : weight) {
    two += w * one;
    one += w;
  }
  std::vector<Assumption> out{{.probability = beliefs.nothing}};
  for (std::size_t i = 0; i < weight.size(); ++i) {
    if (weight[i] == 0) continue;
    const int a = static_cast<int>(i);
    out.push_back({{a, 0}, 1, beliefs.one * weight[i] / one});
    for (std::size_t j = i + 1; j < weight.size(); ++j)
      if (weight[j] > 0)
        out.push_back({{a, static_cast<int>(j)}, 2, beliefs.two * weight[i] * weight[j] / two});
  }
  return out;
}

// From prior to posterior, most probable first.
void weigh_by_readings(std::vector<Assumption>& list, const Evidence& evidence) {
  double most = -std::numeric_limits<double>::infinity();
  for (auto& a : list) {
    a.probability = std::log(a.probability) + evidence.log_evidence(a.at_fault());
    most = std::max(most, a.probability);
  }
  double sum = 0;
  for (auto& a : list)
    sum += a.probability = std::exp(a.probability - most);
  for (auto& a : list)
    a.probability /= sum;
  std::stable_sort(list.begin(), list.end(),
                   [](const Assumption& a, const Assumption& b) { return a.probability > b.probability; });
}

}  // namespace

template <class Chain>
LinearModel linear_model(std::span<const Station<Chain>> stations, const Geometry<Chain>& geometry,
                         const Beliefs& beliefs) {
  const auto faults = faults_of(Chain{});
  const auto n = static_cast<Eigen::Index>(stations.size());
  const auto of_parts = static_cast<Eigen::Index>(faults.size());
  LinearModel m;
  m.seen = Eigen::MatrixXcd::Zero(n, of_parts + n);
  m.reading.resize(n);
  m.noise = Eigen::MatrixXd::Zero(2 * n, 2 * n);
  m.ordinary = Eigen::VectorXd::Zero(of_parts + n);
  m.large = Eigen::VectorXd::Constant(of_parts + n, beliefs.large_offset.value());
  for (Eigen::Index j = 0; j < of_parts; ++j) {
    const auto& f = faults[static_cast<std::size_t>(j)];
    if (!f.seating) m.ordinary(j) = f.tilt ? beliefs.ordinary_tilt.value() : beliefs.ordinary_offset.value();
    if (f.tilt) m.large(j) = (f.broad ? beliefs.large_tilt_broad : beliefs.large_tilt).value();
  }
  for (Eigen::Index k = 0; k < n; ++k) {
    const auto& s = stations[static_cast<std::size_t>(k)];
    const auto row = seen_at(s, geometry);
    for (Eigen::Index j = 0; j < of_parts; ++j)
      m.seen(k, j) = row[static_cast<std::size_t>(j)];
    m.seen(k, of_parts + k) = 1;
    m.reading(k) = s.vector.si();
    m.noise.block<2, 2>(2 * k, 2 * k) << s.covariance[0], s.covariance[1], s.covariance[2], s.covariance[3];
  }
  return m;
}

template <class Chain>
WeighedCase<Chain> weigh(std::span<const Station<Chain>> stations, const Geometry<Chain>& geometry,
                         const Beliefs& beliefs) {
  LinearModel model = linear_model(stations, geometry, beliefs);
  Evidence evidence(model);
  auto list = assumptions_of(weights<Chain>(model, beliefs), beliefs);
  weigh_by_readings(list, evidence);
  return {std::move(model), std::move(evidence), std::move(list)};
}

template LinearModel linear_model<Rotating>(std::span<const Station<Rotating>>, const RotatingGeometry&,
                                            const Beliefs&);
template LinearModel linear_model<Standing>(std::span<const Station<Standing>>, const StandingGeometry&,
                                            const Beliefs&);
template WeighedCase<Rotating> weigh<Rotating>(std::span<const Station<Rotating>>, const RotatingGeometry&,
                                               const Beliefs&);
template WeighedCase<Standing> weigh<Standing>(std::span<const Station<Standing>>, const StandingGeometry&,
                                               const Beliefs&);

}  // namespace pumpwright::true_running
