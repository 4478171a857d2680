// The rows behind unit.h. Only unit.cpp reads them.
#pragma once

#include <span>

#include "engine/quantity/unit.h"

namespace pumpwright {

// Units of one kind stand together, in the order of the kinds; the SI unit is the first of its kind.
std::span<const Unit> unit_table();

}  // namespace pumpwright
