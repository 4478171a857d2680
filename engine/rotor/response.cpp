#include "engine/rotor/response.h"

#include <cmath>

#include <Eigen/LU>

namespace pumpwright::rotor {
namespace {

constexpr double standard_gravity_m_s2 = 9.80665;

Eigen::Index deflection_of(std::size_t node) {
  return static_cast<Eigen::Index>(2 * node);
}

Eigen::VectorXd nodal(const RotorMatrices& m, std::span<const PointForce> forces) {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(m.stiffness.rows());
  for (const PointForce& force : forces)
    f(deflection_of(node_at(m.mesh, force.at))) += force.force.value();
  return f;
}

// `dynamic` holds the springs of the bearings too. What the shaft does to a bearing: force on a rigid one is
// what is needed beyond `f` to hold its node, on a spring its rate times its deflection.
Response solved(const RotorMatrices& m, const Eigen::MatrixXd& dynamic, const Eigen::VectorXd& f) {
  const Eigen::VectorXd free_f = f(m.free);
  const Eigen::VectorXd free_x = free_part(m, dynamic).partialPivLu().solve(free_f);
  Eigen::VectorXd x = Eigen::VectorXd::Zero(f.size());
  x(m.free) = free_x;
  const Eigen::VectorXd rest = f - dynamic * x;
  Response response;
  for (std::size_t i = 0; i < m.mesh.node_m.size(); ++i)
    response.line.push_back(
        {metres(m.mesh.node_m[i]), metres(x(deflection_of(i))), radians(x(deflection_of(i) + 1))});
  for (std::size_t i = 0; i < response.bearing.size(); ++i) {
    const Eigen::Index w = deflection_of(m.mesh.support_node[i]);
    response.bearing[i] = newtons(m.spring_n_m[i] > 0 ? m.spring_n_m[i] * x(w) : rest(w));
  }
  return response;
}

}  // namespace

Response bent_by(const RotorMatrices& m, std::span<const PointForce> forces) {
  return solved(m, m.stiffness, nodal(m, forces));
}

Response bent_by_weight(const RotorMatrices& m) {
  return solved(m, m.stiffness, standard_gravity_m_s2 * m.weight);
}

Response whirled_by(const RotorMatrices& m, std::span<const PointForce> forces, Speed speed) {
  const double square = speed.value() * speed.value();
  return solved(m, m.stiffness + square * (m.gyroscopic - m.mass), nodal(m, forces));
}

LinePoint point_at(const Response& response, Length at) {
  LinePoint nearest = response.line.front();
  for (const LinePoint& point : response.line)
    if (std::fabs((point.at - at).value()) < std::fabs((nearest.at - at).value())) nearest = point;
  return nearest;
}

}  // namespace pumpwright::rotor
