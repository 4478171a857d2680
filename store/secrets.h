// Rows that change and end: password hashes, wrapped keys, sessions, devices, throttling. Opaque bytes by
// kind and id; they are no part of the log. Deleted bytes are overwritten in the file.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace pumpwright::store {

class GroupCommit;
class ReaderPool;

inline constexpr std::size_t secret_bytes_max = std::size_t{64} * 1024;

struct Secret {
  std::string id;
  std::string bytes;
  std::optional<std::int64_t> expires_at_ms;  // Unix time in milliseconds; from then on it is not there

  bool operator==(const Secret&) const = default;
};

class Secrets {
 public:
  Secrets(GroupCommit& writer, ReaderPool& readers, const std::function<std::int64_t()>& now_ms)
      : writer_(writer), readers_(readers), now_ms_(now_ms) {}

  // kind and id: 1 … 128 bytes; bytes up to secret_bytes_max; std::length_error otherwise. Takes the place of
  // what stands under kind and id. Synced to the disk when it returns.
  void put(const std::string& kind, const Secret& secret);
  std::optional<Secret> get(const std::string& kind, const std::string& id) const;
  // False when there was none.
  bool erase(const std::string& kind, const std::string& id);
  // By id.
  std::vector<Secret> list(const std::string& kind) const;
  // Reads, changes and writes as one: no other change comes between. The function gets what stands (or
  // nothing) and gives what shall stand (or nothing); it must be short, must not call the store, and may be
  // called again.
  void change(const std::string& kind, const std::string& id,
              const std::function<std::optional<Secret>(std::optional<Secret>)>& function);
  // Removes what has expired; gives how many.
  std::size_t purge_expired();

 private:
  GroupCommit& writer_;
  ReaderPool& readers_;
  const std::function<std::int64_t()>& now_ms_;
};

}  // namespace pumpwright::store
