// Files as whole things: copied, synced, hashed, given their name. For databases nobody has open, since
// closing a file drops the locks the process has on it. Internal to this folder.
#pragma once

#include <filesystem>

#include "store/event.h"

namespace pumpwright::store {

struct CopyPaths {
  std::filesystem::path from;
  std::filesystem::path to;
};

// Copies the bytes into a new file of its owner alone and syncs it; gives the hash of what was written.
// StoreError exists when `to` is there.
Hash copy_file_synced(const CopyPaths& paths);

// Syncs the file, gives it the name `to` and syncs the directory. StoreError exists, and nothing done, when
// `to` is there.
void put_in_place(const CopyPaths& paths);

// Bytes in it; 0 when it is not there.
std::uintmax_t file_bytes(const std::filesystem::path& file);

}  // namespace pumpwright::store
