// The tables, as ordered steps from one version to the next. A step that was released is never changed.
// Internal to this folder.
#pragma once

#include <span>
#include <string_view>

#include "store/connection.h"

namespace pumpwright::store {

// Brings the schema from version - 1 to version.
struct Migration {
  int version = 0;
  const char* sql = "";
};

// Marks the file as a store of this program ("PWst").
inline constexpr int store_application_id = 0x50577374;

// All steps, versions 1, 2, 3 …
std::span<const Migration> migrations();

// Refuses a file before anything is written into it: StoreError newer_database when it is ahead of the last
// step, corrupt when it is a database of something else.
void refuse_other_databases(Connection& connection, std::span<const Migration> steps);

// Runs the steps the database does not have yet, all in one transaction, after the refusals above.
void migrate(Connection& connection, std::span<const Migration> steps);

// For readers: the same refusals without writing. An older schema is refused too, as corrupt.
void require_current_schema(Connection& connection);

}  // namespace pumpwright::store
