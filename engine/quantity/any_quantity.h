// A quantity whose kind is known only while the program runs: what a reading, a limit of the catalog or a
// field of a job file holds. It converts from every typed quantity by itself; the way back names the type and
// asserts the kind.
#pragma once

#include <cassert>

#include "engine/quantity/kind.h"
#include "engine/quantity/quantity.h"

namespace pumpwright {

// Says which kind a typed quantity is, and how it is made from and turned into SI.
template <class Q>
struct KindOf;

namespace detail {
template <Kind K, class Q>
struct PlainKind {
  static constexpr Kind kind = K;
  static Q from_si(double si) { return Q::from_value(si); }
  static double si(Q q) { return q.value(); }
};
template <Kind K, class Q>
struct PressureKind {
  static constexpr Kind kind = K;
  static Q from_si(double si) { return Q{pascals(si)}; }
  static double si(Q q) { return q.value.value(); }
};
}  // namespace detail

// clang-format off
template <> struct KindOf<Length> : detail::PlainKind<Kind::length, Length> {};
template <> struct KindOf<Area> : detail::PlainKind<Kind::area, Area> {};
template <> struct KindOf<Volume> : detail::PlainKind<Kind::volume, Volume> {};
template <> struct KindOf<Angle> : detail::PlainKind<Kind::angle, Angle> {};
template <> struct KindOf<Time> : detail::PlainKind<Kind::time, Time> {};
template <> struct KindOf<Mass> : detail::PlainKind<Kind::mass, Mass> {};
template <> struct KindOf<Inertia> : detail::PlainKind<Kind::inertia, Inertia> {};
template <> struct KindOf<Force> : detail::PlainKind<Kind::force, Force> {};
template <> struct KindOf<Torque> : detail::PlainKind<Kind::torque, Torque> {};
template <> struct KindOf<Energy> : detail::PlainKind<Kind::energy, Energy> {};
template <> struct KindOf<Power> : detail::PlainKind<Kind::power, Power> {};
template <> struct KindOf<Pressure> : detail::PlainKind<Kind::pressure_difference, Pressure> {};
template <> struct KindOf<GaugePressure> : detail::PressureKind<Kind::pressure_gauge, GaugePressure> {};
template <> struct KindOf<AbsolutePressure> : detail::PressureKind<Kind::pressure_absolute, AbsolutePressure> {};
template <> struct KindOf<TemperatureDifference>
    : detail::PlainKind<Kind::temperature_difference, TemperatureDifference> {};
template <> struct KindOf<Velocity> : detail::PlainKind<Kind::velocity, Velocity> {};
template <> struct KindOf<Speed> : detail::PlainKind<Kind::speed, Speed> {};
template <> struct KindOf<Frequency> : detail::PlainKind<Kind::frequency, Frequency> {};
template <> struct KindOf<VolumeFlow> : detail::PlainKind<Kind::volume_flow, VolumeFlow> {};
template <> struct KindOf<Viscosity> : detail::PlainKind<Kind::viscosity, Viscosity> {};
template <> struct KindOf<Expansion> : detail::PlainKind<Kind::expansion, Expansion> {};
template <> struct KindOf<Density> : detail::PlainKind<Kind::density, Density> {};
template <> struct KindOf<HeatCapacity> : detail::PlainKind<Kind::heat_capacity, HeatCapacity> {};
template <> struct KindOf<Conductivity> : detail::PlainKind<Kind::conductivity, Conductivity> {};
template <> struct KindOf<KinematicViscosity>
    : detail::PlainKind<Kind::kinematic_viscosity, KinematicViscosity> {};
template <> struct KindOf<SpringRate> : detail::PlainKind<Kind::spring_rate, SpringRate> {};
template <> struct KindOf<PressureVelocity> : detail::PlainKind<Kind::pressure_velocity, PressureVelocity> {};
// clang-format on
template <>
struct KindOf<Temperature> {
  static constexpr Kind kind = Kind::temperature;
  static Temperature from_si(double si) { return kelvin(si); }
  static double si(const Temperature& t) { return kelvin_of(t); }
};

template <class Q>
concept TypedQuantity = requires(Q q) {
  KindOf<Q>::si(q);
};

class AnyQuantity {
 public:
  AnyQuantity(Kind kind, double si) : kind_(kind), si_(si) {}

  template <TypedQuantity Q>
  AnyQuantity(Q q) : kind_(KindOf<Q>::kind), si_(KindOf<Q>::si(q)) {}

  Kind kind() const { return kind_; }
  double si() const { return si_; }  // in the SI unit of the kind

  // The typed quantity again. Q must be of this kind (asserted).
  template <TypedQuantity Q>
  Q as() const {
    assert(KindOf<Q>::kind == kind_);
    return KindOf<Q>::from_si(si_);
  }

 private:
  Kind kind_;
  double si_;
};

}  // namespace pumpwright
