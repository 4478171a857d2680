// Typed physical quantities.
//
// Every number that crosses a public boundary of the engine has one of the types below, so that a length can
// not be handed over as an angle, a torque as an energy, or a gauge pressure as an absolute one. Values are
// held in SI. Inside a function, plain doubles are used with the SI unit as the last part of the name
// (`clearance_m`).
#pragma once

#include <boost/units/absolute.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si.hpp>

namespace pumpwright {

namespace units = boost::units;
namespace si = boost::units::si;

using Length = units::quantity<si::length>;                      // [m]
using Area = units::quantity<si::area>;                          // [m²]
using Volume = units::quantity<si::volume>;                      // [m³]
using Angle = units::quantity<si::plane_angle>;                  // [rad]
using Time = units::quantity<si::time>;                          // [s]
using Mass = units::quantity<si::mass>;                          // [kg]
using Force = units::quantity<si::force>;                        // [N]
using Inertia = units::quantity<si::moment_of_inertia>;          // [kg·m²], of a mass about an axis
using Torque = units::quantity<si::torque>;                      // [N·m/rad], never an Energy
using Energy = units::quantity<si::energy>;                      // [J]
using Power = units::quantity<si::power>;                        // [W]
using Pressure = units::quantity<si::pressure>;                  // [Pa], a difference or a stress
using Velocity = units::quantity<si::velocity>;                  // [m/s]
using Speed = units::quantity<si::angular_velocity>;             // [rad/s], of a shaft
using Frequency = units::quantity<si::frequency>;                // [Hz]
using Viscosity = units::quantity<si::dynamic_viscosity>;        // [Pa·s]
using TemperatureDifference = units::quantity<si::temperature>;  // [K], a step
using Temperature = units::quantity<si::temperature, units::absolute<double>>;  // [K], a point on the scale

using VolumeFlow = units::quantity<units::divide_typeof_helper<si::volume, si::time>::type>;  // [m³/s]
using Expansion =
    units::quantity<units::divide_typeof_helper<si::dimensionless,
                                                si::temperature>::type>;  // [1/K], linear thermal expansion
using Density = units::quantity<units::divide_typeof_helper<si::mass, si::volume>::type>;  // [kg/m³]
using HeatCapacity =
    units::quantity<units::divide_typeof_helper<units::divide_typeof_helper<si::energy, si::mass>::type,
                                                si::temperature>::type>;  // [J/(kg·K)], of a mass
using Conductivity =
    units::quantity<units::divide_typeof_helper<units::divide_typeof_helper<si::power, si::length>::type,
                                                si::temperature>::type>;  // [W/(m·K)], of heat
using KinematicViscosity = units::quantity<units::divide_typeof_helper<si::area, si::time>::type>;  // [m²/s]
using SpringRate = units::quantity<units::divide_typeof_helper<si::force, si::length>::type>;       // [N/m]
// Pressure of two faces times their sliding speed [Pa·m/s, the same as W/m²].
using PressureVelocity = units::quantity<units::multiply_typeof_helper<si::pressure, si::velocity>::type>;

// Pressure against the atmosphere of the place [Pa]. May be negative down to -101325 Pa (vacuum).
struct GaugePressure {
  Pressure value;
};

// Pressure against vacuum [Pa]. Never negative.
struct AbsolutePressure {
  Pressure value;
};

// Total indicator reading: largest minus smallest reading over one turn [m]. Never negative.
// A pure eccentricity e reads a TIR of 2e; the two are different types so that a limit on one can not judge
// the other.
struct Tir {
  Length value;
};

// Distance of a surface's least-squares centre from the axis it turns about [m]. Never negative.
struct Eccentricity {
  Length value;
};

constexpr Length metres(double v) {
  return Length::from_value(v);
}
constexpr Area square_metres(double v) {
  return Area::from_value(v);
}
constexpr Volume cubic_metres(double v) {
  return Volume::from_value(v);
}
constexpr Angle radians(double v) {
  return Angle::from_value(v);
}
constexpr Time seconds(double v) {
  return Time::from_value(v);
}
constexpr Mass kilograms(double v) {
  return Mass::from_value(v);
}
constexpr Force newtons(double v) {
  return Force::from_value(v);
}
constexpr Inertia kilogram_square_metres(double v) {
  return Inertia::from_value(v);
}
constexpr Torque newton_metres(double v) {
  return Torque::from_value(v);
}
constexpr Energy joules(double v) {
  return Energy::from_value(v);
}
constexpr Power watts(double v) {
  return Power::from_value(v);
}
constexpr Pressure pascals(double v) {
  return Pressure::from_value(v);
}
constexpr Velocity metres_per_second(double v) {
  return Velocity::from_value(v);
}
constexpr Frequency hertz(double v) {
  return Frequency::from_value(v);
}
constexpr Speed radians_per_second(double v) {
  return Speed::from_value(v);
}
constexpr Viscosity pascal_seconds(double v) {
  return Viscosity::from_value(v);
}
constexpr TemperatureDifference kelvin_step(double v) {
  return TemperatureDifference::from_value(v);
}
inline Temperature kelvin(double v) {
  return Temperature::from_value(units::absolute<double>(v));
}
constexpr VolumeFlow cubic_metres_per_second(double v) {
  return VolumeFlow::from_value(v);
}
constexpr Expansion per_kelvin(double v) {
  return Expansion::from_value(v);
}
constexpr Density kilograms_per_cubic_metre(double v) {
  return Density::from_value(v);
}
constexpr HeatCapacity joules_per_kilogram_kelvin(double v) {
  return HeatCapacity::from_value(v);
}
constexpr Conductivity watts_per_metre_kelvin(double v) {
  return Conductivity::from_value(v);
}
constexpr KinematicViscosity square_metres_per_second(double v) {
  return KinematicViscosity::from_value(v);
}
constexpr SpringRate newtons_per_metre(double v) {
  return SpringRate::from_value(v);
}
constexpr PressureVelocity pascal_metres_per_second(double v) {
  return PressureVelocity::from_value(v);
}
inline double kelvin_of(const Temperature& t) {
  return t.value().value();
}

constexpr double pi = 3.14159265358979323846;
constexpr Angle degrees(double v) {
  return Angle::from_value(v * pi / 180.0);
}
constexpr double degrees_of(const Angle& a) {
  return a.value() * 180.0 / pi;
}

}  // namespace pumpwright
