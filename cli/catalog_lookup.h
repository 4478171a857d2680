// Rows of the catalog by the words a command line uses for them.
#pragma once

#include <string>

#include "catalog/catalog.h"

namespace pumpwright {

// The table, or BadInput naming `flag` and listing the tables there are.
const Table& table_named(const Catalog& catalog, const std::string& name, const std::string& flag);

// The row whose id is `id` (capitals and small letters are not told apart), or BadInput naming `flag` and
// listing the rows there are.
const Row& row_named(const Table& table, const std::string& id, const std::string& flag);

// The rows of fastener strength whose grade is `grade` and whose sizes hold `diameter`, the preferred one.
// BadInput naming `flag` when there is none.
const Row& strength_of(const Catalog& catalog, const std::string& grade, Length diameter,
                       const std::string& flag);

}  // namespace pumpwright
