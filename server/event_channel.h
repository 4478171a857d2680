// One listener of an event stream: a bounded queue of ready text between whoever has news and the connection
// that writes it. A listener that does not read fast enough is dropped, never waited for.
#pragma once

#include <cstddef>
#include <functional>
#include <mutex>
#include <string>

namespace pumpwright::server {

class EventChannel {
 public:
  static constexpr std::size_t bytes_max = std::size_t{256} * 1024;

  // `still_allowed` is asked at every heartbeat (from an I/O thread; must not block); the stream ends when it
  // says no.
  explicit EventChannel(std::function<bool()> still_allowed) : still_allowed_(std::move(still_allowed)) {}

  // Adds text; closes the channel when it would hold more than bytes_max. False when closed.
  bool push(std::string_view text);
  void close();

  // For the connection. `wake` is called (from any thread, under no lock of the caller's) whenever there is
  // text or the channel closed.
  void on_news(std::function<void()> wake);
  std::string take();  // everything that waits
  bool closed() const;
  bool still_allowed() const { return still_allowed_(); }

 private:
  void wake_listener();

  mutable std::mutex mutex_;
  std::string waiting_;
  bool closed_ = false;
  std::function<void()> wake_;
  std::function<bool()> still_allowed_;
};

// One message of the event-stream format. `data` is a single line.
std::string event_text(std::string_view event, std::string_view id, std::string_view data);

}  // namespace pumpwright::server
