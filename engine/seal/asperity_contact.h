// Two rough faces so close that their summits touch: how hard the summits push back, and how much room is
// left for the liquid.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::seal {

// Roughness of a pair of faces, both in one. Summit heights are taken as normally distributed.
struct Asperities {
  Length roughness = metres(0.2e-6);  // sigma, both faces' rms combined as sqrt(s1² + s2²): 0.01 to 5 µm
  Pressure modulus = pascals(20e9);   // E', 1/E' = (1-nu1²)/E1 + (1-nu2²)/E2: 0.1 to 1000 GPa
  double crowding = 0.05;    // summits per area x summit radius x sigma: 0.001 to 1; 0.03 to 0.05 for
                             // most finished surfaces (Greenwood & Tripp 1970, remembered)
  double sharpness = 0.001;  // sigma over summit radius: 1e-6 to 0.1
  double friction = 0.1;     // of summit on summit, 0 to 1
};

// Throws BadInput "asperities/...".
void require_valid(const Asperities& asperities);

// F(lambda) = integral from lambda to infinity of (s - lambda)^(3/2) phi(s) ds, phi the standard normal
// density; -6 <= lambda, beyond 12 it is 0 (1e-34). From a table once computed by quadrature, relative error
// below 1e-8. A value below -6 is taken as -6.
double summit_load_integral(double lambda);

// Value with its derivative by the separation.
struct WithSlope {
  double value = 0;
  double slope = 0;
};

// Pressure the summits carry when the mean planes stand `separation_m` apart:
// p = 4/3 E' crowding sqrt(sharpness) F(separation / sigma) [Pa], elastic summits (Greenwood & Williamson
// 1966; formula remembered, integral checked).
WithSlope contact_pressure(const Asperities& asperities, double separation_m);

// Mean height of the room left between two rough faces: sigma (lambda Phi(lambda) + phi(lambda)), the mean of
// the positive part of the local gap (Patir & Cheng 1978, remembered); equals the separation when that is
// many sigma. Below -5 sigma it is that of -5 sigma. roughness_m = 0: smooth faces, the separation itself.
WithSlope mean_gap(double roughness_m, double separation_m);

}  // namespace pumpwright::seal
