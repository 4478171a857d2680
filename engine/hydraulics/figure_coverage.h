// How a measured figure's doubt is told to people.
#pragma once

#include "engine/hydraulics/performance_test.h"

namespace pumpwright::hydraulics {

// Half-width of 95 % coverage from Student's t (JCGM 100:2008, G.3), in the figure's own unit.
double expanded_95(const Figure& figure);

}  // namespace pumpwright::hydraulics
