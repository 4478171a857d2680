// Copies a living store into one file. Internal to this folder; restoring is in store.h.
#pragma once

#include <filesystem>

#include "store/connection.h"
#include "store/store.h"

namespace pumpwright::store {

// `source` only reads; other connections go on writing.
BackupReport back_up(Connection& source, const std::filesystem::path& to);

}  // namespace pumpwright::store
