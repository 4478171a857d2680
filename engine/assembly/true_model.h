// Which errors explain the readings: the exact Gaussian evidence of each assumption, and what the readings
// then say about every error. Internal to the attribution; the public side is true_attribution.h.
//
// y = U f + ε. y holds the stations' vectors one after the other (two numbers each), f the errors of the
// parts and one error more for each station (the indicator's). ε ~ N(0, Σ) comes from the fits of the sweeps.
// An error that is in order is f_j ~ N(0, s_j² I); one that is at fault is N(0, l_j² I) with l_j large
// against s_j. So under every assumption J of what is at fault y ~ N(0, C_J), C_J = Σ + U S_J Uᵀ, and the
// evidence is exact:
//     ln p(y | J) = -½ (yᵀ C_J⁻¹ y + ln |C_J| + 2n ln 2π).
// C_∅ = L Lᵀ is factored once; each J changes four of its directions at most (Woodbury), so that all of them
// cost less than one more factorisation. What the readings say of f is generalised least squares with the
// beliefs as observations:
//     f | y, J ~ N(S_J Uᵀ C_J⁻¹ y, S_J - S_J Uᵀ C_J⁻¹ U S_J).
//
// Source: textbook linear Gaussian models (e.g. C. M. Bishop, Pattern Recognition and Machine Learning,
// 2006, 2.3.3 and 3.5.1, remembered); checked against NumPy (tests/reference/engine/assembly).
#pragma once

#include <complex>
#include <span>
#include <vector>

#include <Eigen/Cholesky>
#include <Eigen/Core>

namespace pumpwright::true_running {

struct LinearModel {
  Eigen::MatrixXcd seen;     // stations × errors
  Eigen::VectorXcd reading;  // [m] by station
  Eigen::MatrixXd noise;     // Σ, 2 × 2 blocks [m²]
  Eigen::VectorXd ordinary;  // s by error
  Eigen::VectorXd large;     // l by error, > s

  Eigen::Index stations() const { return seen.rows(); }
  Eigen::Index errors() const { return seen.cols(); }
};

struct Posterior {
  Eigen::VectorXd mean;  // two numbers for each error
  Eigen::MatrixXd covariance;

  std::complex<double> error(Eigen::Index j) const { return {mean(2 * j), mean(2 * j + 1)}; }
};

class Evidence {
 public:
  explicit Evidence(const LinearModel& model);

  // `at_fault`: at most two different errors.
  double log_evidence(std::span<const int> at_fault) const;
  Posterior posterior(std::span<const int> at_fault) const;

 private:
  using Small = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 4, 4>;
  using SmallVector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 4, 1>;
  struct Change {
    Eigen::LLT<Small> factor;  // of D⁻¹ + G_JJ
    SmallVector g;
    double log_det = 0;  // of I + D G_JJ
  };
  Change change(std::span<const int> at_fault) const;

  Eigen::VectorXd ordinary_, large_;
  Eigen::MatrixXd gram_;  // Uᵀ C_∅⁻¹ U
  Eigen::VectorXd g_;     // Uᵀ C_∅⁻¹ y
  double base_ = 0;       // ln p(y | ∅)
};

// A complex row as the two real rows it stands for.
Eigen::MatrixXd real_rows(const Eigen::MatrixXcd& rows);

// Whether the readings alone could ever tell the errors of `a` from those of `b`: they can not when both give
// the same readings, that is when the columns of both span the same space.
bool look_alike(const Eigen::MatrixXcd& seen, std::span<const int> a, std::span<const int> b);

// Whether the errors of `a` can give, between them, the readings that the error `j` gives.
bool imitates(const Eigen::MatrixXcd& seen, std::span<const int> a, int j);

}  // namespace pumpwright::true_running
