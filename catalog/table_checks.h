// What must hold between the rows of one table. Used by the loader only.
#pragma once

#include <cstddef>
#include <span>

#include "catalog/catalog.h"

namespace pumpwright {

// Refuses, with BadInput, a group without exactly one preferred row, a preferred row without a group, a range
// whose ends are not in order, and two rows without a group for the same size. `lines` are the rows' lines in
// the file.
void check_rows(const Table& table, std::span<const std::size_t> lines);

}  // namespace pumpwright
