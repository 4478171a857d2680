// When a liquid boils, from vapour pressures somebody measured or read from a sheet.
//
// Two points: the straight line of ln p over 1/T (Clausius-Clapeyron with a constant heat of vaporisation).
// Three or more: Antoine's ln p = A - B / (T + C), least squares in ln p. Either rises strictly.
#pragma once

#include <vector>

#include "engine/quantity/quantity.h"

namespace pumpwright::fluid {

struct VapourPressurePoint {
  Temperature t;
  AbsolutePressure p;
};

class VapourPressureCurve {
 public:
  // Two points or more, each at a temperature and pressure of its own that rise together; 100 K to 1500 K,
  // 1e-3 Pa to 1e9 Pa. BadInput otherwise, also when no Antoine curve comes within `misfit_max` of every
  // point.
  explicit VapourPressureCurve(std::vector<VapourPressurePoint> points);

  // Between the lowest and the highest point; BadInput outside.
  AbsolutePressure pressure(Temperature t) const;
  Temperature temperature(AbsolutePressure p) const;
  Temperature lowest() const { return lowest_; }
  Temperature highest() const { return highest_; }

  bool is_antoine() const { return antoine_; }
  // Largest part by which the curve misses a point; zero for two points.
  double misfit() const { return misfit_; }

  static constexpr double misfit_max = 0.1;

 private:
  double log_pressure(double t_k) const;

  Temperature lowest_;
  Temperature highest_;
  bool antoine_ = false;
  double misfit_ = 0;
  double a_ = 0;  // ln p = a - b / (T + c), p in Pa
  double b_ = 0;  // [K]
  double c_ = 0;  // [K]; zero for two points
};

}  // namespace pumpwright::fluid
