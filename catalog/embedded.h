// The data files built into the program, so that a bench without a network or an installed tree has them.
#pragma once

#include <span>

#include "catalog/catalog.h"

namespace pumpwright {

// Every file under catalog/data as it stood when the program was built, by name. Lives as long as the
// program.
std::span<const NamedBytes> embedded_catalog();

}  // namespace pumpwright
