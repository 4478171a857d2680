// Finds the strength of a fastener: one grade has different figures in different sizes, and sources may
// disagree.
#pragma once

#include <string_view>

#include "catalog/catalog.h"

namespace pumpwright {

// The row of a table of grades (columns grade, size_from, size_to) for the grade, capitals or not, in that
// size; the preferred one where sources disagree. Null when the table has no such grade in that size. Ends of
// a size range count with 1 nm of slack, so that 25.4 mm meets 1 in.
const Row* grade_for_size(const Table& grades, std::string_view grade, Length diameter);

}  // namespace pumpwright
