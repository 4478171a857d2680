#include "engine/rotor/balance_solution.h"

#include <algorithm>
#include <cmath>

#include <Eigen/Dense>

#include "engine/assembly/input_check.h"
#include "engine/metrology/vector_amount.h"

namespace pumpwright::rotor {
namespace {

using Complex = std::complex<double>;
using Matrix = Eigen::MatrixXcd;
using Vector = Eigen::VectorXcd;

Eigen::Index index(std::size_t i) {
  return static_cast<Eigen::Index>(i);
}

// Influence of all planes on all sensors, each sensor divided by its largest amplitude.
struct Scaled {
  Eigen::VectorXd weight;  // one for each sensor
  Matrix alpha;
  Vector base;
};

Scaled scaled(const BalanceRuns& data, const std::vector<SensorInfluence>& influence) {
  const auto sensors = index(influence.size());
  Scaled out{Eigen::VectorXd(sensors), Matrix(sensors, index(data.planes)), Vector(sensors)};
  for (std::size_t s = 0; s < influence.size(); ++s) {
    double largest = 0;
    for (const auto& run : data.runs)
      largest = std::max(largest, run.readings[s].amplitude);
    out.weight[index(s)] = largest > 0 ? 1 / largest : 1;
    out.base[index(s)] = out.weight[index(s)] * influence[s].base;
    for (std::size_t p = 0; p < data.planes; ++p)
      out.alpha(index(s), index(p)) = out.weight[index(s)] * influence[s].alpha[p];
  }
  return out;
}

// How the remaining unbalance moves with one sensor's coefficients: a column for each real parameter.
Eigen::MatrixXd sensitivity(const Scaled& m, const Matrix& normal_inverse, const Vector& u,
                            Eigen::Index sensor) {
  const Eigen::Index planes = m.alpha.cols();
  const double weight = m.weight[sensor];
  const Vector along = m.alpha.row(sensor).adjoint();
  const Complex left = m.base[sensor] - (m.alpha.row(sensor) * u)(0);
  Eigen::MatrixXd out(2 * planes, 2 * (1 + planes));
  const auto put = [&](Eigen::Index column, const Vector& du) {
    for (Eigen::Index p = 0; p < planes; ++p) {
      out(2 * p, column) = du[p].real();
      out(2 * p + 1, column) = du[p].imag();
    }
  };
  for (int part = 0; part < 2; ++part) {
    const Complex step = weight * (part == 0 ? Complex(1) : Complex(0, 1));
    put(part, normal_inverse * along * step);
    for (Eigen::Index p = 0; p < planes; ++p) {
      Vector moved = along * (-step * u[p]);
      moved[p] += std::conj(step) * left;
      put(2 + 2 * p + part, normal_inverse * moved);
    }
  }
  return out;
}

bool all_known(const std::vector<SensorInfluence>& influence) {
  return std::all_of(influence.begin(), influence.end(), [](const auto& s) { return !s.covariance.empty(); });
}

Eigen::MatrixXd covariance_of(const Scaled& m, const Matrix& normal_inverse, const Vector& u,
                              const std::vector<SensorInfluence>& influence) {
  const Eigen::Index planes = m.alpha.cols();
  const Eigen::Index parameters = 2 * (1 + planes);
  Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(2 * planes, 2 * planes);
  for (std::size_t s = 0; s < influence.size(); ++s) {
    const Eigen::MatrixXd j = sensitivity(m, normal_inverse, u, index(s));
    const Eigen::Map<const Eigen::MatrixXd> own(influence[s].covariance.data(), parameters, parameters);
    sum += j * own * j.transpose();
  }
  return sum;
}

// Root of the summed variance of the scaled coefficients.
double coefficients_u(const Scaled& m, const Eigen::VectorXd& column_scale,
                      const std::vector<SensorInfluence>& influence) {
  const std::size_t planes = static_cast<std::size_t>(m.alpha.cols());
  const std::size_t parameters = 2 * (1 + planes);
  double sum = 0;
  for (std::size_t s = 0; s < influence.size(); ++s)
    for (std::size_t k = 2; k < parameters; ++k) {
      const double scale = m.weight[index(s)] * column_scale[index(k / 2 - 1)];
      sum += scale * scale * influence[s].covariance[k * parameters + k];
    }
  return std::sqrt(sum);
}

struct Apart {
  double condition = 1;
  bool told_apart = true;
};

// What was fitted in a plane moved the vibration by this part of it at most.
void require_effect(const BalanceRuns& data, const Eigen::VectorXd& length) {
  for (std::size_t p = 0; p < data.planes; ++p) {
    double heaviest = 0;
    for (const auto& run : data.runs)
      heaviest = std::max(heaviest, std::abs(fitted_in(run, p, data.sense)));
    const double effect = length[index(p)] * heaviest;
    require_that(effect > 1e-9, effect, "runs", "trial weights that change the vibration");
  }
}

Apart judge_planes(const BalanceRuns& data, const Scaled& m, const std::vector<SensorInfluence>& influence) {
  const Eigen::VectorXd length = m.alpha.colwise().norm();
  require_effect(data, length);
  const Eigen::VectorXd column_scale = length.cwiseInverse();
  const Matrix even = m.alpha * column_scale.cast<Complex>().asDiagonal();
  const Eigen::JacobiSVD<Matrix> svd(even);
  const double most = svd.singularValues()(0);
  const double least = svd.singularValues()(m.alpha.cols() - 1);
  require_that(least > 1e-12 * most, least / most, "runs", "planes that act differently on the sensors");
  const double condition = most / least;
  const bool apart = all_known(influence) ? least > 2 * coefficients_u(m, column_scale, influence)
                                          : condition <= condition_trusted;
  return {condition, apart};
}

double least_dof(const std::vector<SensorInfluence>& influence) {
  double dof = std::numeric_limits<double>::infinity();
  for (const auto& s : influence)
    dof = std::min(dof, s.dof);
  return dof;
}

std::array<double, 4> block_of(const Eigen::MatrixXd& c, Eigen::Index plane) {
  const Eigen::Index i = 2 * plane;
  return {c(i, i), c(i, i + 1), c(i + 1, i), c(i + 1, i + 1)};
}

}  // namespace

std::optional<Unbalance> UnbalanceEstimate::amount_u() const {
  if (!covariance) return std::nullopt;
  return kilogram_metres(pumpwright::amount_u(value.real(), value.imag(), *covariance, dof));
}

BalanceSolution solve_balance(const BalanceRuns& data, const std::vector<SensorInfluence>& influence) {
  const Scaled m = scaled(data, influence);
  const Apart apart = judge_planes(data, m, influence);
  const Vector u = m.alpha.colPivHouseholderQr().solve(m.base);
  const Matrix normal_inverse = (m.alpha.adjoint() * m.alpha).inverse();

  BalanceSolution out;
  out.condition = apart.condition;
  out.told_apart = apart.told_apart;
  out.dof = least_dof(influence);
  Eigen::MatrixXd covariance;
  if (all_known(influence)) {
    covariance = covariance_of(m, normal_inverse, u, influence);
    out.covariance.assign(covariance.data(), covariance.data() + covariance.size());
  }
  for (std::size_t p = 0; p < data.planes; ++p) {
    UnbalanceEstimate here;
    here.value = u[index(p)] + fitted_in(data.runs.back(), p, data.sense);
    here.dof = out.dof;
    if (covariance.size() > 0) here.covariance = block_of(covariance, index(p));
    out.remaining.push_back(here);
    out.correction.push_back(-here.value);
  }
  for (const auto& sensor : influence) {
    Complex left = sensor.base;
    for (std::size_t p = 0; p < data.planes; ++p)
      left -= sensor.alpha[p] * u[index(p)];
    out.left_over.push_back(vibration_of(left, data.sense));
  }
  return out;
}

std::array<UnbalanceEstimate, 2> seen_at(const BalanceSolution& solution, std::span<const Length> at,
                                         Length a, Length b) {
  const double span_m = (b - a).value();
  require_that(span_m != 0, span_m, "rotor/bearings", "two planes that lie apart");
  std::array<UnbalanceEstimate, 2> out;
  for (std::size_t end = 0; end < 2; ++end) {
    UnbalanceEstimate& here = out[end];
    here.dof = solution.dof;
    std::vector<double> share;
    for (const Length& z : at)
      share.push_back(end == 0 ? (b - z).value() / span_m : (z - a).value() / span_m);
    for (std::size_t p = 0; p < at.size(); ++p)
      here.value += share[p] * solution.remaining[p].value;
    if (solution.covariance.empty()) continue;
    const std::size_t size = 2 * at.size();
    std::array<double, 4> c{};
    for (std::size_t p = 0; p < at.size(); ++p)
      for (std::size_t q = 0; q < at.size(); ++q)
        for (std::size_t k = 0; k < 4; ++k)
          c[k] += share[p] * share[q] * solution.covariance[(2 * p + k / 2) * size + 2 * q + k % 2];
    here.covariance = c;
  }
  return out;
}

}  // namespace pumpwright::rotor
