// The seal that the film's tests and benchmarks share: a 55 mm pump seal, carbon on silicon carbide,
// invented.
#pragma once

#include "engine/seal/film.h"

namespace pumpwright::testing {

inline seal::Faces given_faces() {
  return {metres(0.0616), metres(0.0489), metres(0.0524), seal::PressureSide::outside};
}

inline seal::Ring carbon_ring() {
  return {metres(0.0489), metres(0.0616),  metres(0.012), watts_per_metre_kelvin(10),
          pascals(20e9),  per_kelvin(4e-6)};
}

inline seal::Ring silicon_carbide_ring() {
  return {metres(0.047),  metres(0.066),     metres(0.010), watts_per_metre_kelvin(120),
          pascals(400e9), per_kelvin(4.3e-6)};
}

// 5 bar across, 80 degrees, 3550 rpm.
inline seal::FilmCase given_film() {
  using namespace seal;
  const auto cooling = HeatTransfer::from_value(6000);
  const auto wet = PressureSide::outside;
  FilmCase c;
  c.faces = given_faces();
  c.spring = newtons(190);
  c.chamber = {pascals(601325)};
  c.atmosphere = {pascals(101325)};
  c.chamber_temperature = kelvin(353.15);
  c.speed = radians_per_second(371.8);
  c.coning.by_pressure = pressure_coning(carbon_ring(), metres(0.009), wet) +
                         pressure_coning(silicon_carbide_ring(), metres(0.006), wet);
  c.coning.by_heat =
      thermal_coning(carbon_ring(), cooling, wet) + thermal_coning(silicon_carbide_ring(), cooling, wet);
  c.heat.to_chamber =
      heat_conductance(carbon_ring(), cooling, wet) + heat_conductance(silicon_carbide_ring(), cooling, wet);
  c.heat.along_the_face = HeatConductance::from_value(120 * 0.004);
  return c;
}

// Smooth parallel faces held apart, one viscosity if the liquid has one, no turning.
inline seal::FilmCase held_gap(double film_m) {
  seal::FilmCase c = given_film();
  c.asperities.reset();
  c.coning = {};
  c.speed = radians_per_second(0);
  c.held_film = metres(film_m);
  return c;
}

}  // namespace pumpwright::testing
