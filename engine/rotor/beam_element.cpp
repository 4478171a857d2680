#include "engine/rotor/beam_element.h"

namespace pumpwright::rotor {
namespace {

// 12 E I / (kappa G A L²): how much the piece gives by shear beside what it gives by bending.
double shear_number(const BeamSection& s, const ShaftMaterial& material, double length_m) {
  const double e_pa = material.modulus.value();
  const double g_pa = e_pa / (2 * (1 + material.poisson));
  return 12 * e_pa * s.inertia_m4 / (s.shear_coefficient * g_pa * s.area_m2 * length_m * length_m);
}

Eigen::Matrix4d stiffness_of(double bending, double phi, double l) {
  Eigen::Matrix4d k;
  k << 12, 6 * l, -12, 6 * l,                               //
      6 * l, (4 + phi) * l * l, -6 * l, (2 - phi) * l * l,  //
      -12, -6 * l, 12, -6 * l,                              //
      6 * l, (2 - phi) * l * l, -6 * l, (4 + phi) * l * l;
  return bending / (l * l * l * (1 + phi)) * k;
}

Eigen::Matrix4d translation_of(double mass_kg, double phi, double l) {
  const double phi2 = phi * phi;
  const double m1 = 13.0 / 35 + 7.0 / 10 * phi + phi2 / 3;
  const double m2 = (11.0 / 210 + 11.0 / 120 * phi + phi2 / 24) * l;
  const double m3 = 9.0 / 70 + 3.0 / 10 * phi + phi2 / 6;
  const double m4 = (13.0 / 420 + 3.0 / 40 * phi + phi2 / 24) * l;
  const double m5 = (1.0 / 105 + phi / 60 + phi2 / 120) * l * l;
  const double m6 = (1.0 / 140 + phi / 60 + phi2 / 120) * l * l;
  Eigen::Matrix4d m;
  m << m1, m2, m3, -m4,  //
      m2, m5, m4, -m6,   //
      m3, m4, m1, -m2,   //
      -m4, -m6, -m2, m5;
  return mass_kg / ((1 + phi) * (1 + phi)) * m;
}

Eigen::Matrix4d rotation_of(double inertia_kg_m2, double phi, double l) {
  const double m7 = 6.0 / 5;
  const double m8 = (1.0 / 10 - phi / 2) * l;
  const double m9 = (2.0 / 15 + phi / 6 + phi * phi / 3) * l * l;
  const double m10 = (-1.0 / 30 - phi / 6 + phi * phi / 6) * l * l;
  Eigen::Matrix4d m;
  m << m7, m8, -m7, m8,   //
      m8, m9, -m8, m10,   //
      -m7, -m8, m7, -m8,  //
      m8, m10, -m8, m9;
  return inertia_kg_m2 / (l * l * (1 + phi) * (1 + phi)) * m;
}

}  // namespace

BeamElement beam_element(const ShaftStep& step, const ShaftMaterial& material, double length_m) {
  const BeamSection s = beam_section(step, material.poisson);
  const double phi = shear_number(s, material, length_m);
  const double density_kg_m3 = material.density.value();
  const double mass_kg = density_kg_m3 * s.area_m2 * length_m;
  const Eigen::Matrix4d rotation = rotation_of(density_kg_m3 * s.inertia_m4 * length_m, phi, length_m);
  BeamElement element;
  element.stiffness = stiffness_of(material.modulus.value() * s.inertia_m4, phi, length_m);
  element.mass = translation_of(mass_kg, phi, length_m) + rotation;
  element.gyroscopic = 2 * rotation;
  element.weight << mass_kg / 2, mass_kg * length_m / 12, mass_kg / 2, -mass_kg * length_m / 12;
  return element;
}

}  // namespace pumpwright::rotor
