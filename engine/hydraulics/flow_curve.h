// A curve over flow: head or power of a pump through its test points, as a low-order least-squares polynomial
// or as a shape-preserving interpolant.
//
// Polynomial: least squares over t, the flow mapped to -1 … 1, in Chebyshev polynomials so that the normal
// equations stay well conditioned (condition below about 30 for evenly spread points and degrees up to 4).
// PCHIP: piecewise cubic Hermite with Fritsch-Butland slopes (F. N. Fritsch and J. Butland, SIAM J. Sci.
// Stat. Comput. 5, 1984) and one-sided three-point ends: it passes through every point and makes no bump that
// the points do not have. Both are checked beside NumPy and SciPy.
#pragma once

#include <span>
#include <vector>

namespace pumpwright::hydraulics {

enum class CurveKind { polynomial, pchip };

struct CurveChoice {
  CurveKind kind = CurveKind::polynomial;
  int degree = 2;  // of a polynomial, 1 to 4
};

constexpr int highest_degree = 4;

// Values are SI: flow in m³/s.
class FlowCurve {
 public:
  // Points in any order. BadInput "points" when there are fewer than the degree + 1 (PCHIP: 2) different
  // flows, when flows repeat for PCHIP, or when a number is not finite.
  static FlowCurve through(std::span<const double> flow_m3_s, std::span<const double> value,
                           const CurveChoice& choice);

  // The flows the points reach over. Nothing is known outside: callers ask `reaches` of the curve through the
  // points as they were measured. (Points moved within their uncertainty move the ends a little; there the
  // end pieces go on.)
  double lowest_m3_s() const { return knots_.front(); }
  double highest_m3_s() const { return knots_.back(); }
  bool reaches(double flow_m3_s) const { return flow_m3_s >= lowest_m3_s() && flow_m3_s <= highest_m3_s(); }

  double at(double flow_m3_s) const;
  double slope_at(double flow_m3_s) const;  // [value/(m³/s)]

 private:
  struct Piece {
    double from = 0, per_flow = 0;  // s = (flow - from) · per_flow
    double c[highest_degree + 1] = {};
  };
  const Piece& piece_at(double flow_m3_s) const;
  static FlowCurve polynomial(std::span<const double> flow, std::span<const double> value, int degree);
  static FlowCurve pchip(std::span<const double> flow, std::span<const double> value);

  std::vector<double> knots_;
  std::vector<Piece> pieces_;
};

// Standard deviation of the points about a polynomial, with n - degree - 1 degrees of freedom; 0 when none is
// left and for PCHIP, which leaves no residual.
double residual_sd(const FlowCurve& curve, std::span<const double> flow_m3_s, std::span<const double> value,
                   const CurveChoice& choice);

}  // namespace pumpwright::hydraulics
