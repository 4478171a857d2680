#include "engine/rotor/mesh.h"

#include <algorithm>
#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::rotor {
namespace {

constexpr double same_place_over_length = 1.0 / 5000;

// Step ends come first, so that of two places that share a node the step end stays where it is.
std::vector<double> cuts_of(const Rotor& rotor) {
  std::vector<double> cuts{0};
  for (const ShaftStep& step : rotor.steps)
    cuts.push_back(cuts.back() + step.length.value());
  const double same_place_m = same_place_over_length * cuts.back();
  const auto add = [&cuts, same_place_m](Length at) {
    const bool fresh = std::none_of(cuts.begin(), cuts.end(), [at, same_place_m](double cut_m) {
      return std::fabs(cut_m - at.value()) < same_place_m;
    });
    if (fresh) cuts.push_back(at.value());
  };
  for (const Support& support : rotor.supports)
    add(support.at);
  add(rotor.impeller.at);
  for (const Disk& other : rotor.others)
    add(other.at);
  for (const Length& station : rotor.stations)
    add(station);
  std::sort(cuts.begin(), cuts.end());
  return cuts;
}

std::size_t step_at(const Rotor& rotor, double place_m) {
  double end_m = 0;
  for (std::size_t i = 0; i + 1 < rotor.steps.size(); ++i) {
    end_m += rotor.steps[i].length.value();
    if (place_m < end_m) return i;
  }
  return rotor.steps.size() - 1;
}

}  // namespace

Mesh divide(const Rotor& rotor, int elements_over_length) {
  require_valid(rotor);
  require_between(elements_over_length, 4, 400, "elements", "4 to 400 elements over the shaft's length");
  const double longest_m = length_of(rotor.steps).value() / elements_over_length;
  const std::vector<double> cuts = cuts_of(rotor);
  Mesh mesh;
  mesh.node_m.push_back(0);
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const double piece_m = cuts[i + 1] - cuts[i];
    const int parts = std::max(1, static_cast<int>(std::ceil(piece_m / longest_m - 1e-9)));
    for (int part = 1; part <= parts; ++part) {
      mesh.node_m.push_back(part == parts ? cuts[i + 1] : cuts[i] + piece_m * part / parts);
      mesh.step.push_back(step_at(rotor, cuts[i] + piece_m / 2));
    }
  }
  for (std::size_t i = 0; i < rotor.supports.size(); ++i)
    mesh.support_node[i] = node_at(mesh, rotor.supports[i].at);
  return mesh;
}

std::size_t node_at(const Mesh& mesh, Length at) {
  std::size_t nearest = 0;
  for (std::size_t i = 1; i < mesh.node_m.size(); ++i)
    if (std::fabs(mesh.node_m[i] - at.value()) < std::fabs(mesh.node_m[nearest] - at.value())) nearest = i;
  return nearest;
}

}  // namespace pumpwright::rotor
