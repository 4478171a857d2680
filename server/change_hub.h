// Who hears of what: hands every event the store has committed to the event streams that listen to its job,
// or to the whole shop. Nothing here waits for a listener.
#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "server/event_channel.h"
#include "store/event_log.h"

namespace pumpwright::server {

class ChangeHub {
 public:
  explicit ChangeHub(store::EventLog& events);

  // The store's after-commit listener.
  void on_committed(std::span<const store::StoredEvent> events);

  struct Listening {
    std::function<bool()> still_allowed;
    std::string session;  // id; the stream ends with it
  };

  // A stream of one job: every event after `after_seq`, then what comes. Without `after_seq` it begins with
  // the last event, so that the listener can tell whether it has missed one. More than replay_max missed
  // events are told as the last of them alone: whoever missed so many reads the job anew.
  std::shared_ptr<EventChannel> listen_to_job(const std::string& stream,
                                              std::optional<std::uint64_t> after_seq, Listening listening);
  // A stream of all streams' heads. `last_id` as this hub gave it; one it does not know (a restart) begins
  // with a change of the shop, upon which the listener reads everything anew.
  std::shared_ptr<EventChannel> listen_to_shop(const std::string& last_id, Listening listening);

  void end_session(const std::string& session);
  void end_all();
  std::size_t listeners() const;

  static constexpr std::size_t replay_max = 500;

 private:
  struct Listener {
    std::mutex mutex;
    std::weak_ptr<EventChannel> channel;
    std::string session;
    std::uint64_t sent_seq = 0;
    bool catching_up = false;
    std::vector<std::pair<std::uint64_t, std::string>> early;  // came while it was catching up
    bool missed = false;                                       // more came than is kept
  };
  struct ShopChange {
    std::uint64_t number = 0;
    std::string text;
  };

  void tell(Listener& listener, std::uint64_t seq, const std::string& text) const;
  void catch_up(const std::string& stream, std::optional<std::uint64_t> after_seq, Listener& listener) const;
  std::string next_shop_text(const store::StoredEvent& event);

  store::EventLog& events_;
  mutable std::mutex mutex_;
  std::multimap<std::string, std::shared_ptr<Listener>> of_jobs_;
  std::vector<std::shared_ptr<Listener>> of_shop_;
  std::deque<ShopChange> recent_;
  std::uint64_t next_number_ = 1;
  std::string run_;  // tells this run of the server from the last one
};

}  // namespace pumpwright::server
