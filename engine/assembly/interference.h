// Press and shrink fits of two thick rings (Lame): how hard a hub sits on its shaft, what that does to both,
// and how warm the hub must be to slide on.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright {

struct ElasticMaterial {
  Pressure youngs_modulus;  // E, 1 MPa to 2 TPa
  double poisson = 0.3;     // nu, 0 to below 0.5
};

struct PressFit {
  Length contact_diameter;  // d
  Length hub_outside;       // d_o > d
  Length shaft_bore;        // d_i, 0 for a solid shaft, < d
  Length engaged_length;    // L > 0
  Length interference;  // delta, diametral, > 0 and < d / 100: the effective one, after the loss by smoothing
  ElasticMaterial hub;
  ElasticMaterial shaft;
  double friction = 0.12;  // mu between the surfaces, 0 to 1
};

struct PressFitState {
  Pressure contact;           // p
  Pressure hub_hoop_at_bore;  // tension, largest in the hub
  Pressure hub_hoop_outside;
  Pressure shaft_hoop_surface;  // negative: compression
  Pressure
      shaft_hoop_bore;  // at the bore of a hollow shaft, the largest in it; of a solid one: at the axis, -p
  Pressure hub_von_mises;     // at the bore, plane stress
  Length hub_growth_outside;  // diametral growth of the hub's outside
  Force axial_force;          // to push on or off: mu p pi d L
  Torque torque;              // slips at F d / 2
};

// Plane stress, equal lengths, elastic, standing still:
// p = (delta/d) / { [(d_o^2+d^2)/(d_o^2-d^2) + nu_o]/E_o + [(d^2+d_i^2)/(d^2-d_i^2) - nu_i]/E_i }
// e.g. Shigley's Mechanical Engineering Design, 3-16 "Press and Shrink Fits". Stress risers at the hub's ends
// are not in it. Throws BadInput naming the field that breaks a condition above.
PressFitState press_fit(const PressFit& fit);

struct ShrinkAssembly {
  Length contact_diameter;    // d > 0
  Length interference;        // diametral, >= 0
  Length working_clearance;   // diametral room to slide the hub on, >= 0
  Expansion hub_expansion;    // 1/K, > 0
  Expansion shaft_expansion;  // 1/K, >= 0; matters only when the shaft is cooled
  Temperature room;           // at which the interference was taken
  Temperature shaft;          // of the shaft at assembly, <= room
};

// Temperature the hub must have: T = room + [delta + clearance - alpha_s d (room - shaft)] / (alpha_h d); not
// below room. What the parts can bear (temper, elastomers, coatings) is the caller's to check. BadInput as
// above.
Temperature hub_temperature_to_assemble(const ShrinkAssembly& assembly);

}  // namespace pumpwright
