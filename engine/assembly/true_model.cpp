#include "engine/assembly/true_model.h"

#include <cmath>
#include <numbers>

namespace pumpwright::true_running {
namespace {

using Complex = std::complex<double>;

// Of a column that is left of a vector once the others are taken out; below this it lies in their space.
constexpr double same_direction = 1e-6;

struct Basis {
  std::array<Eigen::VectorXcd, 2> column;
  std::size_t count = 0;

  // What of `v`, of length 1, lies outside.
  Eigen::VectorXcd outside(Eigen::VectorXcd v) const {
    for (std::size_t i = 0; i < count; ++i)
      v -= column[i] * column[i].dot(v);
    return v;
  }
  bool add(const Eigen::VectorXcd& v) {
    const double length = v.norm();
    if (!(length > 0)) return false;
    const Eigen::VectorXcd rest = outside(v / length);
    if (rest.norm() < same_direction) return false;
    column[count++] = rest.normalized();
    return true;
  }
};

// Of the two numbers of each error at fault, taken one after the other.
Eigen::Index row_of(std::span<const int> at_fault, Eigen::Index i) {
  return 2 * static_cast<Eigen::Index>(at_fault[static_cast<std::size_t>(i / 2)]) + i % 2;
}

}  // namespace

Eigen::MatrixXd real_rows(const Eigen::MatrixXcd& rows) {
  Eigen::MatrixXd out(2 * rows.rows(), 2 * rows.cols());
  for (Eigen::Index k = 0; k < rows.rows(); ++k)
    for (Eigen::Index j = 0; j < rows.cols(); ++j) {
      const Complex a = rows(k, j);
      out.block<2, 2>(2 * k, 2 * j) << a.real(), -a.imag(), a.imag(), a.real();
    }
  return out;
}

Evidence::Evidence(const LinearModel& model) : ordinary_(model.errors() * 2), large_(model.errors() * 2) {
  for (Eigen::Index j = 0; j < 2 * model.errors(); ++j) {
    ordinary_(j) = model.ordinary(j / 2) * model.ordinary(j / 2);
    large_(j) = model.large(j / 2) * model.large(j / 2);
  }
  const Eigen::MatrixXd u = real_rows(model.seen);
  const Eigen::MatrixXd c = model.noise + u * ordinary_.asDiagonal() * u.transpose();
  const Eigen::LLT<Eigen::MatrixXd> factor(c);
  Eigen::VectorXd y(2 * model.stations());
  for (Eigen::Index k = 0; k < model.stations(); ++k)
    y.segment<2>(2 * k) << model.reading(k).real(), model.reading(k).imag();
  const Eigen::MatrixXd w = factor.matrixL().solve(u);
  const Eigen::VectorXd z = factor.matrixL().solve(y);
  gram_.noalias() = w.transpose() * w;
  g_.noalias() = w.transpose() * z;
  base_ = -0.5 * z.squaredNorm() - static_cast<double>(model.stations()) * std::log(2 * std::numbers::pi);
  for (Eigen::Index i = 0; i < c.rows(); ++i)
    base_ -= std::log(factor.matrixLLT()(i, i));
}

Evidence::Change Evidence::change(std::span<const int> at_fault) const {
  const auto k = static_cast<Eigen::Index>(2 * at_fault.size());
  Small b(k, k);
  Change out;
  out.g.resize(k);
  for (Eigen::Index i = 0; i < k; ++i) {
    const Eigen::Index row = row_of(at_fault, i);
    out.g(i) = g_(row);
    for (Eigen::Index j = 0; j < k; ++j)
      b(i, j) = gram_(row, row_of(at_fault, j));
    const double more = large_(row) - ordinary_(row);
    b(i, i) += 1 / more;
    out.log_det += std::log(more);
  }
  out.factor.compute(b);
  for (Eigen::Index i = 0; i < k; ++i)
    out.log_det += 2 * std::log(out.factor.matrixLLT()(i, i));
  return out;
}

double Evidence::log_evidence(std::span<const int> at_fault) const {
  if (at_fault.empty()) return base_;
  const Change c = change(at_fault);
  const SmallVector half = c.factor.matrixL().solve(c.g);
  return base_ + 0.5 * half.squaredNorm() - 0.5 * c.log_det;
}

Posterior Evidence::posterior(std::span<const int> at_fault) const {
  Eigen::MatrixXd gram = gram_;
  Eigen::VectorXd g = g_, spread = ordinary_;
  if (!at_fault.empty()) {
    const Change c = change(at_fault);
    Eigen::MatrixXd columns(gram_.rows(), c.g.size());
    for (Eigen::Index i = 0; i < c.g.size(); ++i) {
      const Eigen::Index row = row_of(at_fault, i);
      columns.col(i) = gram_.col(row);
      spread(row) = large_(row);
    }
    gram -= columns * c.factor.solve(Small(Small::Identity(c.g.size(), c.g.size()))) * columns.transpose();
    g -= columns * c.factor.solve(c.g);
  }
  Posterior out;
  out.mean = spread.asDiagonal() * g;
  out.covariance = -(spread.asDiagonal() * gram * spread.asDiagonal());
  out.covariance.diagonal() += spread;
  return out;
}

bool imitates(const Eigen::MatrixXcd& seen, std::span<const int> a, int j) {
  Basis basis;
  for (const int error : a)
    basis.add(seen.col(error));
  const double length = seen.col(j).norm();
  return length > 0 && basis.outside(seen.col(j) / length).norm() < same_direction;
}

bool look_alike(const Eigen::MatrixXcd& seen, std::span<const int> a, std::span<const int> b) {
  Basis basis;
  for (const int j : a)
    basis.add(seen.col(j));
  Basis other;
  for (const int j : b) {
    other.add(seen.col(j));
    const double length = seen.col(j).norm();
    if (length > 0 && basis.outside(seen.col(j) / length).norm() >= same_direction) return false;
  }
  return basis.count == other.count;
}

}  // namespace pumpwright::true_running
