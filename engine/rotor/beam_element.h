// One straight piece of round shaft as a Timoshenko beam: stiffness, mass and gyroscopic matrix, weight.
//
// Each end has two unknowns, the deflection w and the rotation of the section t, in the order w1 t1 w2 t2;
// without shear t is the slope w'. The shape functions are the exact static line of a piece loaded at its
// ends, so that a line bent by forces at nodes is exact, and the weight's line is exact at the nodes.
// J. S. Przemieniecki, Theory of Matrix Structural Analysis (1968), 5.6 and 11.4, and Z. Friedman and
// J. B. Kosmatka, Computers & Structures 47 (1993) 473, from memory; the tests hold the matrices against
// numerical quadrature of the same shape functions.
#pragma once

#include <Eigen/Core>

#include "engine/rotor/shaft.h"

namespace pumpwright::rotor {

struct BeamElement {
  Eigen::Matrix4d stiffness;   // [N/m, N, N·m]
  Eigen::Matrix4d mass;        // across and about a diameter [kg, kg·m, kg·m²]
  Eigen::Matrix4d gyroscopic;  // per rad/s: twice the part of `mass` that is about a diameter
  Eigen::Vector4d weight;      // forces and moments at the ends of a weight of 1 m/s² [N, N·m]
};

// `length_m` > 0; material and step must be valid.
BeamElement beam_element(const ShaftStep& step, const ShaftMaterial& material, double length_m);

}  // namespace pumpwright::rotor
