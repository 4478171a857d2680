// Cuts the shaft into beam elements: at every step, bearing, disk and station, and evenly between them.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "engine/rotor/rotor.h"

namespace pumpwright::rotor {

struct Mesh {
  std::vector<double> node_m;     // ascending, from 0 to the shaft's length
  std::vector<std::size_t> step;  // of the shaft, for each element (one fewer than nodes)
  std::array<std::size_t, 2> support_node{};
};

// Elements are at most 1/`elements_over_length` of the shaft long (4 to 400). Places closer than a 5000th of
// the shaft share a node, since much shorter elements would cost digits. A static line is exact whatever the
// division. The error of natural frequencies falls with the fourth power of the element's length, with the
// second once elements are shorter than the shaft is thick; usual_elements leave about 1e-5 of a pump shaft's
// first and 1e-4 of its third critical speed. Throws BadInput "elements" and as require_valid(rotor).
constexpr int usual_elements = 40;
Mesh divide(const Rotor& rotor, int elements_over_length = usual_elements);

// The node at `at`, or the one nearest to it.
std::size_t node_at(const Mesh& mesh, Length at);

}  // namespace pumpwright::rotor
