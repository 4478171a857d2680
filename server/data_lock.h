// One server to a data directory: a second one is refused while the first lives.
#pragma once

#include <filesystem>

namespace pumpwright::server {

class DataLock {
 public:
  // Makes the directory (mode 0700) when it is not there. Throws BadInput (field "--data") when it can not be
  // used or another server has it.
  explicit DataLock(const std::filesystem::path& directory);
  ~DataLock();
  DataLock(const DataLock&) = delete;
  DataLock& operator=(const DataLock&) = delete;

 private:
  int file_ = -1;
};

}  // namespace pumpwright::server
