// The matrices of a whole rotor: elements put together, the disks and the springs of the bearings added,
// and what a rigid bearing holds taken out.
//
// The rotor is the same in every plane, so one plane is enough: with the deflection in two planes as one
// complex number, whirling with w at the speed S is (K + w S G - w² M) x = 0, all matrices real and
// symmetric, w > 0 the way the shaft turns (forward) and w < 0 against it (backward).
#pragma once

#include <array>
#include <vector>

#include <Eigen/Core>

#include "engine/rotor/mesh.h"

namespace pumpwright::rotor {

struct RotorMatrices {
  Mesh mesh;
  Eigen::MatrixXd stiffness;  // all unknowns, two a node: deflection, rotation
  Eigen::MatrixXd mass;
  Eigen::MatrixXd gyroscopic;
  Eigen::VectorXd weight;              // nodal forces of the rotor's own weight at 1 m/s²
  std::array<double, 2> spring_n_m{};  // of the bearings, in `stiffness` too; 0 for a rigid one
  std::vector<int> free;               // unknowns that no rigid bearing holds
};

// Throws as divide().
RotorMatrices rotor_matrices(const Rotor& rotor, int elements_over_length = usual_elements);

// The rows and columns of the free unknowns.
Eigen::MatrixXd free_part(const RotorMatrices& m, const Eigen::MatrixXd& whole);

}  // namespace pumpwright::rotor
