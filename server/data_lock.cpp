#include "server/data_lock.h"

#include <system_error>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::server {

DataLock::DataLock(const std::filesystem::path& directory) {
  std::error_code failure;
  const bool made = std::filesystem::create_directories(directory, failure);
  if (failure || !std::filesystem::is_directory(directory))
    throw BadInput({.field = "--data",
                    .place = "",
                    .value = directory.string(),
                    .expected = "a directory that can be made or written (" + failure.message() + ")"});
  if (made) std::filesystem::permissions(directory, std::filesystem::perms::owner_all, failure);
  // The lock goes with the process, however it ends.
  file_ = ::open((directory / "server.lock").c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (file_ < 0)
    throw BadInput({.field = "--data",
                    .place = "",
                    .value = directory.string(),
                    .expected = "a directory that can be written"});
  if (::flock(file_, LOCK_EX | LOCK_NB) != 0) {
    ::close(file_);
    throw BadInput({.field = "--data",
                    .place = "",
                    .value = directory.string(),
                    .expected = "a directory that no other server uses"});
  }
}

DataLock::~DataLock() {
  ::close(file_);
}

}  // namespace pumpwright::server
