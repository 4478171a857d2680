// Lets SQLite work on a DiskModel. While one of these lives it is SQLite's default, so the code under test
// opens its databases as ever. The shared memory of the write-ahead log is on the heap (xShm* are implemented
// here), hence the store runs in its normal locking mode, with reader connections beside the writer.
#pragma once

#include <map>
#include <memory>
#include <string>

#include "tests/fault/store/disk_model.h"

struct sqlite3_vfs;

namespace pumpwright::store {

class FaultVfs {
 public:
  explicit FaultVfs(DiskModel& disk);
  ~FaultVfs();
  FaultVfs(const FaultVfs&) = delete;
  FaultVfs& operator=(const FaultVfs&) = delete;

 private:
  struct Callbacks;
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace pumpwright::store
