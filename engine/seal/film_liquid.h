// A liquid as the film solver reads it: viscosity and vapour pressure by temperature, tabulated once so that
// a solve, or a map of forty thousand solves, does not evaluate long correlations at every node.
#pragma once

#include <vector>

#include "engine/fluid/liquid.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::seal {

class FilmLiquid {
 public:
  // Over the liquid's whole range, at `p` or at saturation where that is higher: how the viscosity of a
  // liquid changes with the few bar across a face is left out (water: about 0.005 % a bar at most).
  FilmLiquid(const fluid::Liquid& liquid, AbsolutePressure p);

  double lowest_k() const { return first_k_; }
  double highest_k() const { return first_k_ + step_k_ * static_cast<double>(log_viscosity_.size() - 1); }

  // All between tabulated temperatures by cubic Hermite, viscosity and vapour pressure in their logarithms
  // (steps of 2 K: relative 1e-6 for water); outside the range the value at its end, with slope 0: the caller
  // has to look whether it went there.
  struct Viscosity {
    double pa_s = 0;
    double per_k = 0;  // derivative
  };
  Viscosity viscosity(double t_k) const;
  double saturation_pa(double t_k) const;

  // rho cp [J/(m³ K)].
  double heat_per_volume_j_m3k(double t_k) const;

 private:
  double first_k_ = 0;
  double step_k_ = 1;
  std::vector<double> log_viscosity_, viscosity_slope_;
  std::vector<double> log_saturation_, saturation_slope_;
  std::vector<double> heat_, heat_slope_;
};

}  // namespace pumpwright::seal
