#include "engine/rotor/balance_angles.h"

#include <cmath>

namespace pumpwright::rotor {
namespace {

double wrapped_rad(double angle_rad) {
  const double turn = 2 * pi;
  const double rest = std::fmod(angle_rad, turn);
  const double positive = rest < 0 ? rest + turn : rest;
  return positive >= turn ? 0 : positive;
}

double sign_of(PlacesRise rise) {
  return rise == PlacesRise::against_rotation ? 1 : -1;
}

double sign_of(PhaseIs phase) {
  return phase == PhaseIs::lag ? 1 : -1;
}

}  // namespace

std::complex<double> complex_of(const UnbalanceVector& v, const AngleSense& sense) {
  const double angle_rad = sign_of(sense.places) * v.place.value();
  return v.amount.value() * std::complex<double>(std::cos(angle_rad), std::sin(angle_rad));
}

std::complex<double> complex_of(const VibrationVector& v, const AngleSense& sense) {
  const double angle_rad = sign_of(sense.phase) * v.phase.value();
  return v.amplitude * std::complex<double>(std::cos(angle_rad), std::sin(angle_rad));
}

UnbalanceVector unbalance_of(std::complex<double> kg_m, const AngleSense& sense) {
  return {kilogram_metres(std::abs(kg_m)), radians(wrapped_rad(sign_of(sense.places) * std::arg(kg_m)))};
}

VibrationVector vibration_of(std::complex<double> v, const AngleSense& sense) {
  return {std::abs(v), radians(wrapped_rad(sign_of(sense.phase) * std::arg(v)))};
}

Angle opposite(Angle place) {
  return radians(wrapped_rad(place.value() + pi));
}

}  // namespace pumpwright::rotor
