#include "store/attachments.h"

#include <limits>
#include <stdexcept>

#include <fmt/format.h>

#include "store/event_hash.h"
#include "store/group_commit.h"
#include "store/reader_pool.h"

namespace pumpwright::store {
namespace {

constexpr std::size_t media_type_bytes_max = 128;
constexpr auto no_bound = std::numeric_limits<std::uint64_t>::max();

bool is_there(Connection& connection, const Hash& hash) {
  Query query(connection, "SELECT 1 FROM attachment WHERE hash = ?1");
  query.bind_hash(1, hash);
  return query.step();
}

std::uint64_t bytes_held(Connection& connection) {
  Query query(connection, "SELECT coalesce(sum(length(bytes)), 0) FROM attachment");
  query.step();
  return static_cast<std::uint64_t>(query.integer(0));
}

}  // namespace

std::string Attachments::put(const Attachment& attachment) {
  return put_within(attachment, no_bound).value();
}

std::optional<std::string> Attachments::put_within(const Attachment& attachment, std::uint64_t room_bytes) {
  if (attachment.bytes.size() > attachment_bytes_max)
    throw std::length_error("an attachment is larger than 12 MiB");
  if (attachment.media_type.empty() || attachment.media_type.size() > media_type_bytes_max) {
    throw std::length_error("the media type of an attachment: 1 to 128 bytes");
  }
  const Hash hash = blake2b_256(attachment.bytes);
  bool fits = true;
  writer_.run([&](WriteScope& scope) {
    fits = true;
    if (is_there(scope.connection, hash)) return;
    if (room_bytes != no_bound) fits = bytes_held(scope.connection) + attachment.bytes.size() <= room_bytes;
    if (!fits) return;
    Query(scope.connection, "INSERT INTO attachment (hash, media_type, bytes) VALUES (?1, ?2, ?3)")
        .bind_hash(1, hash)
        .bind_text(2, attachment.media_type)
        .bind_bytes(3, attachment.bytes)
        .run();
  });
  if (!fits) return std::nullopt;
  return to_hex(hash);
}

std::optional<Attachment> Attachments::get(std::string_view hash_hex) const {
  const auto hash = hash_from_hex(hash_hex);
  if (!hash) return std::nullopt;
  auto reader = readers_.lease();
  Query query(*reader, "SELECT media_type, bytes FROM attachment WHERE hash = ?1");
  query.bind_hash(1, *hash);
  if (!query.step()) return std::nullopt;
  Attachment attachment{query.bytes(0), query.bytes(1)};
  if (blake2b_256(attachment.bytes) != *hash) {
    throw StoreError(StoreErrorCode::corrupt, fmt::format("attachment {} is not what was stored", hash_hex));
  }
  return attachment;
}

bool Attachments::has(std::string_view hash_hex) const {
  const auto hash = hash_from_hex(hash_hex);
  if (!hash) return false;
  auto reader = readers_.lease();
  return is_there(*reader, *hash);
}

}  // namespace pumpwright::store
