// Directions of the two chains of a pump, and vectors across its axis that know which chain they belong to.
//
// What turns is laid out in degrees from the keyway, what stands in clock positions from the top mark, seen
// from the impeller end. A vector of one chain can not be added to, or compared with, one of the other: no
// bracket move alters a sweep of the impeller taken from a fixed base, and no turn of the sleeve alters a
// register.
#pragma once

#include <array>
#include <cmath>
#include <complex>

#include "engine/quantity/quantity.h"

namespace pumpwright::true_running {

// A place on what turns: 0 … 2π [rad], rising as the places of the sweeps do.
struct FromKeyway {
  Angle angle;
};

// A place on what stands: 0 … 2π [rad] from the top mark, clockwise seen from the impeller end; 30° is one
// o'clock.
struct ClockPosition {
  Angle angle;
};

// Bearing axis → shaft → sleeve → impeller.
struct Rotating {
  using Direction = FromKeyway;
  enum class Part { shaft, sleeve, impeller };
};

// Motor register and face → bracket → seat.
struct Standing {
  using Direction = ClockPosition;
  enum class Part { motor, bracket, seat };
};

inline constexpr int parts_of_a_chain = 3;

// 0 <= result < 2π.
inline Angle wrapped(Angle a) {
  const double turn = 2 * pi;
  const double rest = std::fmod(a.value(), turn);
  return radians(rest < 0 ? rest + turn : rest);
}

// A vector across the axis. As an offset it points from the turning axis to a centre; as a tilt, to where an
// axis leans as it goes towards the impeller end (small angles).
template <class Chain, class Q>
struct PlaneVector {
  Q toward_0{};   // along place 0
  Q toward_90{};  // along place 90°

  Q size() const { return Q::from_value(std::hypot(toward_0.value(), toward_90.value())); }
  // Meaningless for a vector of size zero (then 0).
  typename Chain::Direction direction() const {
    return {wrapped(radians(std::atan2(toward_90.value(), toward_0.value())))};
  }
  std::complex<double> si() const { return {toward_0.value(), toward_90.value()}; }
  static PlaneVector from_si(std::complex<double> v) {
    return {Q::from_value(v.real()), Q::from_value(v.imag())};
  }

  friend PlaneVector operator+(const PlaneVector& a, const PlaneVector& b) {
    return from_si(a.si() + b.si());
  }
  friend PlaneVector operator-(const PlaneVector& a, const PlaneVector& b) {
    return from_si(a.si() - b.si());
  }
};

template <class Chain>
using Offset = PlaneVector<Chain, Length>;
template <class Chain>
using Tilt = PlaneVector<Chain, Angle>;

// Covariance of such a vector, row by row, in the square of its SI unit.
using Covariance2 = std::array<double, 4>;

// χ²(0.95; 2) = -2 ln 0.05: the 95 % region of a vector of known covariance C is dᵀ C⁻¹ d <= this.
inline const double region_95 = -2 * std::log(0.05);

// dᵀ C⁻¹ d. C must be positive definite.
double squared_distance(std::complex<double> d, const Covariance2& c);

}  // namespace pumpwright::true_running
