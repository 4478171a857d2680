// One data file, read into a table. Used by the loader only.
#pragma once

#include <string_view>

#include "catalog/catalog.h"

namespace pumpwright {

// Parses and checks the file by itself. Throws BadInput naming file, line and row.
Table read_table_file(const NamedBytes& file);

}  // namespace pumpwright
