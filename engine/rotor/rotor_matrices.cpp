#include "engine/rotor/rotor_matrices.h"

#include "engine/rotor/beam_element.h"

namespace pumpwright::rotor {
namespace {

Eigen::Index deflection_of(std::size_t node) {
  return static_cast<Eigen::Index>(2 * node);
}

void add_elements(const Rotor& rotor, RotorMatrices& m) {
  for (std::size_t i = 0; i < m.mesh.step.size(); ++i) {
    const double length_m = m.mesh.node_m[i + 1] - m.mesh.node_m[i];
    const BeamElement element = beam_element(rotor.steps[m.mesh.step[i]], rotor.material, length_m);
    const Eigen::Index at = deflection_of(i);
    m.stiffness.block<4, 4>(at, at) += element.stiffness;
    m.mass.block<4, 4>(at, at) += element.mass;
    m.gyroscopic.block<4, 4>(at, at) += element.gyroscopic;
    m.weight.segment<4>(at) += element.weight;
  }
}

void add_disk(const Disk& disk, RotorMatrices& m) {
  const Eigen::Index w = deflection_of(node_at(m.mesh, disk.at));
  m.mass(w, w) += disk.mass.value();
  m.weight(w) += disk.mass.value();
  m.mass(w + 1, w + 1) += disk.diametral.value();
  m.gyroscopic(w + 1, w + 1) += disk.polar.value();
}

void add_supports(const Rotor& rotor, RotorMatrices& m) {
  std::vector<bool> held(static_cast<std::size_t>(m.stiffness.rows()), false);
  for (std::size_t i = 0; i < rotor.supports.size(); ++i) {
    const Eigen::Index w = deflection_of(m.mesh.support_node[i]);
    if (rotor.supports[i].stiffness)
      m.spring_n_m[i] = rotor.supports[i].stiffness->value();
    else
      held[static_cast<std::size_t>(w)] = true;
    m.stiffness(w, w) += m.spring_n_m[i];
  }
  for (std::size_t i = 0; i < held.size(); ++i)
    if (!held[i]) m.free.push_back(static_cast<int>(i));
}

}  // namespace

RotorMatrices rotor_matrices(const Rotor& rotor, int elements_over_length) {
  RotorMatrices m;
  m.mesh = divide(rotor, elements_over_length);
  const Eigen::Index unknowns = deflection_of(m.mesh.node_m.size());
  m.stiffness = Eigen::MatrixXd::Zero(unknowns, unknowns);
  m.mass = m.stiffness;
  m.gyroscopic = m.stiffness;
  m.weight = Eigen::VectorXd::Zero(unknowns);
  add_elements(rotor, m);
  add_disk(rotor.impeller, m);
  for (const Disk& other : rotor.others)
    add_disk(other, m);
  add_supports(rotor, m);
  return m;
}

Eigen::MatrixXd free_part(const RotorMatrices& m, const Eigen::MatrixXd& whole) {
  return whole(m.free, m.free);
}

}  // namespace pumpwright::rotor
