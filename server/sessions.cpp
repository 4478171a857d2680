#include "server/sessions.h"

#include <algorithm>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "server/random_token.h"
#include "store/secrets.h"

namespace pumpwright::server {
namespace {

const std::string kind = "session";

std::optional<Session> from_bytes(const store::Secret& secret) {
  const auto json = nlohmann::json::parse(secret.bytes, nullptr, false);
  if (!json.is_object()) return std::nullopt;
  return Session{.id = secret.id,
                 .person = json.value("person", ""),
                 .began_ms = json.value("began_ms", std::int64_t{0}),
                 .seen_ms = json.value("seen_ms", std::int64_t{0})};
}

std::string to_bytes(const Session& session) {
  return nlohmann::json{
      {"person", session.person}, {"began_ms", session.began_ms}, {"seen_ms", session.seen_ms}}
      .dump();
}

}  // namespace

Sessions::Sessions(store::Secrets& secrets, std::function<std::int64_t()> now_ms, SessionRules rules)
    : secrets_(secrets), now_ms_(std::move(now_ms)), rules_(rules) {
  for (const auto& secret : secrets_.list(kind))
    if (auto session = from_bytes(secret); session && !expired(*session))
      by_id_.emplace(secret.id, Kept{.session = *session, .written_seen_ms = session->seen_ms});
}

std::string Sessions::begin(const std::string& person) {
  make_room_for(person);
  auto cookie = random_token();
  const auto now = now_ms_();
  const Session session{.id = token_hash(cookie), .person = person, .began_ms = now, .seen_ms = now};
  write(session);
  const std::lock_guard lock(mutex_);
  by_id_.emplace(session.id, Kept{.session = session, .written_seen_ms = now});
  return cookie;
}

std::optional<Session> Sessions::find(std::string_view cookie) {
  if (cookie.size() != 64) return std::nullopt;
  const auto id = token_hash(cookie);
  const std::lock_guard lock(mutex_);
  const auto found = by_id_.find(id);
  if (found == by_id_.end()) return std::nullopt;
  if (expired(found->second.session)) {
    by_id_.erase(found);
    return std::nullopt;
  }
  found->second.session.seen_ms = now_ms_();
  return found->second.session;
}

bool Sessions::lives(const std::string& id) const {
  const std::lock_guard lock(mutex_);
  const auto found = by_id_.find(id);
  return found != by_id_.end() && !expired(found->second.session);
}

void Sessions::write_seen(const std::string& id) {
  Session session;
  {
    const std::lock_guard lock(mutex_);
    const auto found = by_id_.find(id);
    if (found == by_id_.end()) return;
    auto& kept = found->second;
    if (kept.session.seen_ms - kept.written_seen_ms < rules_.write_seen_after_ms) return;
    kept.written_seen_ms = kept.session.seen_ms;
    session = kept.session;
  }
  // Only while it stands there: one that ended meanwhile must not come back.
  secrets_.change(kind, id, [&](std::optional<store::Secret> stands) -> std::optional<store::Secret> {
    if (!stands) return std::nullopt;
    stands->bytes = to_bytes(session);
    return stands;
  });
}

void Sessions::end(const std::string& id) {
  {
    const std::lock_guard lock(mutex_);
    by_id_.erase(id);
  }
  secrets_.erase(kind, id);
}

std::vector<std::string> Sessions::end_all_of(const std::string& person, const std::string& except) {
  std::vector<std::string> ended;
  {
    const std::lock_guard lock(mutex_);
    for (const auto& [id, kept] : by_id_)
      if (kept.session.person == person && id != except) ended.push_back(id);
  }
  for (const auto& id : ended)
    end(id);
  return ended;
}

bool Sessions::expired(const Session& session) const {
  const auto now = now_ms_();
  return now - session.seen_ms > rules_.idle_ms || now - session.began_ms > rules_.whole_ms;
}

void Sessions::write(const Session& session) {
  secrets_.put(
      kind,
      {.id = session.id, .bytes = to_bytes(session), .expires_at_ms = session.began_ms + rules_.whole_ms});
}

void Sessions::make_room_for(const std::string& person) {
  std::vector<std::pair<std::int64_t, std::string>> own;  // seen, id
  {
    const std::lock_guard lock(mutex_);
    for (const auto& [id, kept] : by_id_)
      if (kept.session.person == person) own.emplace_back(kept.session.seen_ms, id);
  }
  if (own.size() < rules_.per_person_max) return;
  end(std::min_element(own.begin(), own.end())->second);
}

}  // namespace pumpwright::server
