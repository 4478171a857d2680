#include "store/file_copy.h"

#include <array>
#include <cerrno>
#include <functional>
#include <span>
#include <system_error>
#include <vector>

#include <fcntl.h>
#include <fmt/format.h>
#include <sodium.h>
#include <stdio.h>  // NOLINT(modernize-deprecated-headers): renameat2 is not in <cstdio>
#include <unistd.h>

#include "store/store.h"

namespace pumpwright::store {
namespace {

[[noreturn]] void fail(const char* what, const std::filesystem::path& file, int why) {
  auto code = StoreErrorCode::io;
  if (why == ENOSPC || why == EDQUOT) code = StoreErrorCode::disk_full;
  if (why == EROFS || why == EACCES || why == EPERM) code = StoreErrorCode::read_only;
  if (why == EEXIST) code = StoreErrorCode::exists;
  throw StoreError(code, fmt::format("{} {}: {}", what, file.string(), std::generic_category().message(why)));
}

class Descriptor {
 public:
  Descriptor(const std::filesystem::path& file, int flags)
      : file_(file), number_(::open(file.c_str(), flags | O_CLOEXEC, 0600)) {
    if (number_ < 0) fail("can not open", file, errno);
  }
  ~Descriptor() { ::close(number_); }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;

  // Bytes read; 0 at the end.
  std::size_t read(std::span<unsigned char> into) {
    ssize_t count = 0;
    do {
      count = ::read(number_, into.data(), into.size());
    } while (count < 0 && errno == EINTR);
    if (count < 0) fail("can not read", file_, errno);
    return static_cast<std::size_t>(count);
  }

  void write(std::span<const unsigned char> bytes) {
    while (!bytes.empty()) {
      const ssize_t count = ::write(number_, bytes.data(), bytes.size());
      if (count < 0 && errno == EINTR) continue;
      if (count < 0) fail("can not write", file_, errno);
      bytes = bytes.subspan(static_cast<std::size_t>(count));
    }
  }

  void sync() {
    if (::fsync(number_) != 0) fail("can not sync", file_, errno);
  }

 private:
  const std::filesystem::path& file_;
  int number_;
};

using Chunk = std::function<void(std::span<const unsigned char>)>;

Hash read_through(const std::filesystem::path& file, const Chunk& with_each) {
  Descriptor source(file, O_RDONLY);
  crypto_generichash_state state;
  Hash hash{};
  crypto_generichash_init(&state, nullptr, 0, hash.size());
  std::vector<unsigned char> buffer(std::size_t{1} << 20U);
  while (const std::size_t count = source.read(buffer)) {
    const std::span bytes(buffer.data(), count);
    crypto_generichash_update(&state, bytes.data(), bytes.size());
    with_each(bytes);
  }
  crypto_generichash_final(&state, hash.data(), hash.size());
  return hash;
}

void sync_file(const std::filesystem::path& file) {
  Descriptor(file, O_RDONLY).sync();
}

void sync_directory_of(const std::filesystem::path& file) {
  const auto directory = std::filesystem::absolute(file).parent_path();
  Descriptor(directory, O_RDONLY | O_DIRECTORY).sync();
}

}  // namespace

Hash file_hash(const std::filesystem::path& file) {
  return read_through(file, [](std::span<const unsigned char>) {});
}

Hash copy_file_synced(const CopyPaths& paths) {
  Descriptor target(paths.to, O_WRONLY | O_CREAT | O_EXCL);
  const Hash hash =
      read_through(paths.from, [&](std::span<const unsigned char> bytes) { target.write(bytes); });
  target.sync();
  return hash;
}

void put_in_place(const CopyPaths& paths) {
  sync_file(paths.from);
  int result = ::renameat2(AT_FDCWD, paths.from.c_str(), AT_FDCWD, paths.to.c_str(), RENAME_NOREPLACE);
  if (result != 0 && (errno == EINVAL || errno == ENOSYS)) {
    // Some disks for carrying do not know the flag; then look before renaming.
    if (std::filesystem::exists(paths.to)) fail("can not make", paths.to, EEXIST);
    result = ::rename(paths.from.c_str(), paths.to.c_str());
  }
  if (result != 0) fail("can not make", paths.to, errno);
  sync_directory_of(paths.to);
}

std::uintmax_t file_bytes(const std::filesystem::path& file) {
  std::error_code missing;
  const auto bytes = std::filesystem::file_size(file, missing);
  return missing ? 0 : bytes;
}

}  // namespace pumpwright::store
