#include "store/secrets.h"

#include <stdexcept>
#include <utility>

#include "store/group_commit.h"
#include "store/reader_pool.h"

namespace pumpwright::store {
namespace {

constexpr std::size_t name_bytes_max = 128;

void require_bounds(const std::string& kind, const Secret& secret) {
  const auto is_name = [](const std::string& text) { return !text.empty() && text.size() <= name_bytes_max; };
  if (!is_name(kind) || !is_name(secret.id))
    throw std::length_error("kind and id of a secret: 1 to 128 bytes");
  if (secret.bytes.size() > secret_bytes_max) throw std::length_error("a secret holds at most 65536 bytes");
}

Secret secret_of(const Query& row) {
  Secret secret{row.bytes(0), row.bytes(1), std::nullopt};
  if (!row.is_null(2)) secret.expires_at_ms = row.integer(2);
  return secret;
}

std::optional<Secret> read_one(Connection& connection, const std::string& kind, const std::string& id,
                               std::int64_t now_ms) {
  Query query(connection,
              "SELECT id, bytes, expires_at_ms FROM secret"
              " WHERE kind = ?1 AND id = ?2 AND (expires_at_ms IS NULL OR expires_at_ms > ?3)");
  query.bind_text(1, kind).bind_text(2, id).bind(3, now_ms);
  if (!query.step()) return std::nullopt;
  return secret_of(query);
}

void write_one(Connection& connection, const std::string& kind, const Secret& secret) {
  Query query(connection,
              "INSERT INTO secret (kind, id, bytes, expires_at_ms) VALUES (?1, ?2, ?3, ?4)"
              " ON CONFLICT (kind, id) DO UPDATE SET bytes = excluded.bytes,"
              " expires_at_ms = excluded.expires_at_ms");
  query.bind_text(1, kind).bind_text(2, secret.id).bind_bytes(3, secret.bytes);
  if (secret.expires_at_ms) {
    query.bind(4, *secret.expires_at_ms);
  } else {
    query.bind_null(4);
  }
  query.run();
}

void erase_one(Connection& connection, const std::string& kind, const std::string& id) {
  Query(connection, "DELETE FROM secret WHERE kind = ?1 AND id = ?2")
      .bind_text(1, kind)
      .bind_text(2, id)
      .run();
}

}  // namespace

void Secrets::put(const std::string& kind, const Secret& secret) {
  require_bounds(kind, secret);
  writer_.run([&](WriteScope& scope) { write_one(scope.connection, kind, secret); });
}

std::optional<Secret> Secrets::get(const std::string& kind, const std::string& id) const {
  auto reader = readers_.lease();
  return read_one(*reader, kind, id, now_ms_());
}

bool Secrets::erase(const std::string& kind, const std::string& id) {
  bool was_there = false;
  writer_.run([&](WriteScope& scope) {
    was_there = read_one(scope.connection, kind, id, now_ms_()).has_value();
    erase_one(scope.connection, kind, id);
  });
  return was_there;
}

std::vector<Secret> Secrets::list(const std::string& kind) const {
  auto reader = readers_.lease();
  Query query(*reader,
              "SELECT id, bytes, expires_at_ms FROM secret"
              " WHERE kind = ?1 AND (expires_at_ms IS NULL OR expires_at_ms > ?2) ORDER BY id");
  query.bind_text(1, kind).bind(2, now_ms_());
  std::vector<Secret> secrets;
  while (query.step())
    secrets.push_back(secret_of(query));
  return secrets;
}

void Secrets::change(const std::string& kind, const std::string& id,
                     const std::function<std::optional<Secret>(std::optional<Secret>)>& function) {
  writer_.run([&](WriteScope& scope) {
    auto wanted = function(read_one(scope.connection, kind, id, now_ms_()));
    if (!wanted) {
      erase_one(scope.connection, kind, id);
      return;
    }
    wanted->id = id;
    require_bounds(kind, *wanted);
    write_one(scope.connection, kind, *wanted);
  });
}

std::size_t Secrets::purge_expired() {
  std::size_t count = 0;
  writer_.run([&](WriteScope& scope) {
    Query(scope.connection, "DELETE FROM secret WHERE expires_at_ms <= ?1").bind(1, now_ms_()).run();
    count = static_cast<std::size_t>(scope.connection.number("SELECT changes()"));
  });
  return count;
}

}  // namespace pumpwright::store
