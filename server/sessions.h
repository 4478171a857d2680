// Who is signed in. The browser holds 256 random bits in a cookie; the store holds their hash only, so that a
// restart keeps people signed in and a stolen file signs nobody in. Looked up in memory, since every request
// asks.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pumpwright::store {
class Secrets;
}

namespace pumpwright::server {

struct Session {
  std::string id;      // hash of the cookie
  std::string person;  // id
  std::int64_t began_ms = 0;
  std::int64_t seen_ms = 0;
};

struct SessionRules {
  std::int64_t idle_ms = std::int64_t{12} * 3600 * 1000;           // a shift
  std::int64_t whole_ms = std::int64_t{7} * 24 * 3600 * 1000;      // however busy
  std::int64_t write_seen_after_ms = std::int64_t{5} * 60 * 1000;  // how far what is written lags behind
  std::size_t per_person_max = 50;                                 // the one unseen for longest ends
};

class Sessions {
 public:
  // Reads what the store holds.
  Sessions(store::Secrets& secrets, std::function<std::int64_t()> now_ms, SessionRules rules = {});

  // Gives the cookie. Writes to the store.
  std::string begin(const std::string& person);
  // Nothing for a cookie that names no session or one that has expired. Memory only.
  std::optional<Session> find(std::string_view cookie);
  // Whether it is still there and has not expired; does not count as being seen.
  bool lives(const std::string& id) const;
  // Writes when it was last seen, if what is written is much older.
  void write_seen(const std::string& id);

  void end(const std::string& id);
  // Ends all of a person but `except` (a session's id; may be empty). Gives the ids of those that ended.
  std::vector<std::string> end_all_of(const std::string& person, const std::string& except);

 private:
  struct Kept {
    Session session;
    std::int64_t written_seen_ms = 0;
  };
  bool expired(const Session& session) const;
  void write(const Session& session);
  void make_room_for(const std::string& person);

  store::Secrets& secrets_;
  std::function<std::int64_t()> now_ms_;
  SessionRules rules_;
  mutable std::mutex mutex_;
  std::map<std::string, Kept, std::less<>> by_id_;
};

}  // namespace pumpwright::server
