// What is thrown when the store can not do its work. The code comes from SQLite's extended result code and
// the operating system's error number, never from the text of a message.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace pumpwright::store {

enum class StoreErrorCode {
  disk_full,
  read_only,       // file, directory or disk can not be written
  busy,            // another process holds the store, or too much waits already
  corrupt,         // damaged, or no store at all
  io,              // the disk refuses
  newer_database,  // written by a newer version of the program
  exists,          // a file is in the way and is not overwritten
  other,
};

std::string_view word_of(StoreErrorCode code);

class StoreError : public std::runtime_error {
 public:
  StoreError(StoreErrorCode code, const std::string& message) : std::runtime_error(message), code_(code) {}

  StoreErrorCode code() const { return code_; }

 private:
  StoreErrorCode code_;
};

}  // namespace pumpwright::store
