// Photos and papers, found by the BLAKE2b-256 of their bytes. Kept in the same file as the log; never changed
// or removed.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace pumpwright::store {

class GroupCommit;
class ReaderPool;

inline constexpr std::size_t attachment_bytes_max = std::size_t{12} * 1024 * 1024;

struct Attachment {
  std::string media_type;
  std::string bytes;
};

class Attachments {
 public:
  Attachments(GroupCommit& writer, ReaderPool& readers) : writer_(writer), readers_(readers) {}

  // Gives the hash in hexadecimal. The same bytes again change nothing, and keep the media type of the first
  // time. std::length_error above attachment_bytes_max or with a media type outside 1 … 128 bytes.
  std::string put(const Attachment& attachment);
  // The same, unless all of them together would then hold more than `room_bytes`: then nothing is stored and
  // nothing given. Bytes that are there already need no room. Looks at the length of every attachment.
  std::optional<std::string> put_within(const Attachment& attachment, std::uint64_t room_bytes);
  // Nothing for an unknown hash. StoreError corrupt when the bytes no longer give their hash.
  std::optional<Attachment> get(std::string_view hash_hex) const;
  bool has(std::string_view hash_hex) const;

 private:
  GroupCommit& writer_;
  ReaderPool& readers_;
};

}  // namespace pumpwright::store
