#include "server/event_channel.h"

#include <cassert>
#include <utility>

namespace pumpwright::server {

bool EventChannel::push(std::string_view text) {
  bool open = false;
  {
    const std::lock_guard lock(mutex_);
    if (closed_) return false;
    if (waiting_.size() + text.size() > bytes_max)
      closed_ = true;
    else
      waiting_ += text;
    open = !closed_;
  }
  wake_listener();
  return open;
}

void EventChannel::close() {
  {
    const std::lock_guard lock(mutex_);
    closed_ = true;
  }
  wake_listener();
}

void EventChannel::on_news(std::function<void()> wake) {
  {
    const std::lock_guard lock(mutex_);
    wake_ = std::move(wake);
  }
  wake_listener();
}

std::string EventChannel::take() {
  const std::lock_guard lock(mutex_);
  return std::exchange(waiting_, {});
}

bool EventChannel::closed() const {
  const std::lock_guard lock(mutex_);
  return closed_;
}

void EventChannel::wake_listener() {
  std::function<void()> wake;
  {
    const std::lock_guard lock(mutex_);
    wake = wake_;
  }
  if (wake) wake();
}

std::string event_text(std::string_view event, std::string_view id, std::string_view data) {
  assert(data.find('\n') == std::string_view::npos);
  std::string text;
  if (!id.empty()) text.append("id: ").append(id).append("\n");
  text.append("event: ").append(event).append("\ndata: ").append(data).append("\n\n");
  return text;
}

}  // namespace pumpwright::server
