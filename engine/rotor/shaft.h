// The shaft as it was turned: steps of one diameter each, of one material, and what a step does as a beam.
#pragma once

#include <string>
#include <vector>

#include "engine/quantity/quantity.h"

namespace pumpwright::rotor {

struct ShaftMaterial {
  Pressure modulus;    // Young's, 1 GPa to 1 TPa
  Density density;     // 500 to 30 000 kg/m³
  double poisson = 0;  // 0 to 0.49
  std::string source;  // where the three come from
};

// "carbon-steel", "chromium-molybdenum-steel", "austenitic-stainless-steel", "martensitic-stainless-steel".
// Throws BadInput naming `field` for any other name. The sources are public tables of material properties;
// the modulus of one steel differs by about 5 % from table to table.
ShaftMaterial shaft_material(const std::string& name, const std::string& field);
const std::vector<std::string>& shaft_material_names();

struct ShaftStep {
  Length length;    // 0.1 mm to 5 m
  Length diameter;  // outside, 1 mm to 1 m
  Length bore;      // 0 for a solid step, at most 0.95 of the diameter
};

// What a step is as a beam, in SI numbers for the matrices.
struct BeamSection {
  double area_m2 = 0;
  double inertia_m4 = 0;         // second moment of area about a diameter
  double shear_coefficient = 0;  // kappa: effective shear area / area
};
BeamSection beam_section(const ShaftStep& step, double poisson);

// Shear coefficient of a round section, m = bore / diameter:
// 6 (1 + v) (1 + m²)² / ((7 + 6 v) (1 + m²)² + (20 + 12 v) m²).
// G. R. Cowper, The Shear Coefficient in Timoshenko's Beam Theory, J. Appl. Mech. 33 (1966) 335: the paper's
// abstract and, in public restatements, the formula were read. [m 0 to 0.95, v 0 to 0.49]
double round_shear_coefficient(double bore_ratio, double poisson);

// Throws BadInput "material/..." or "shaft/2/diameter" (numbers from 0); 1 to 60 steps.
void require_valid(const ShaftMaterial& material);
void require_valid(const std::vector<ShaftStep>& steps);

Length length_of(const std::vector<ShaftStep>& steps);

}  // namespace pumpwright::rotor
