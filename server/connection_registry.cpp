#include "server/connection_registry.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace pumpwright::server {

std::shared_ptr<void> ConnectionRegistry::take_place(const std::string& address) {
  const std::lock_guard lock(mutex_);
  auto& from_there = taken_by_address_[address];
  if (taken_ >= limits_.connections_max || from_there >= limits_.per_address_max) {
    if (from_there == 0) taken_by_address_.erase(address);
    return nullptr;
  }
  ++taken_;
  ++from_there;
  return {this, [this, address](void* /*unused*/) { give_back(address); }};
}

void ConnectionRegistry::give_back(const std::string& address) {
  std::function<void()> done;
  {
    const std::lock_guard lock(mutex_);
    --taken_;
    if (--taken_by_address_[address] == 0) taken_by_address_.erase(address);
    if (taken_ == 0) done = std::exchange(when_empty_, nullptr);
  }
  if (done) done();
}

void ConnectionRegistry::add(const std::weak_ptr<LiveConnection>& connection) {
  const std::lock_guard lock(mutex_);
  open_.emplace(next_++, connection);
  if (open_.size() < prune_at_) return;
  std::erase_if(open_, [](const auto& entry) { return entry.second.expired(); });
  prune_at_ = std::max<std::size_t>(64, open_.size() * 2);
}

void ConnectionRegistry::finish_all() {
  std::vector<std::shared_ptr<LiveConnection>> open;
  {
    const std::lock_guard lock(mutex_);
    for (const auto& [number, weak] : open_)
      if (auto connection = weak.lock()) open.push_back(std::move(connection));
  }
  for (const auto& connection : open)
    connection->finish();
}

void ConnectionRegistry::when_empty(std::function<void()> done) {
  {
    const std::lock_guard lock(mutex_);
    if (taken_ > 0) {
      when_empty_ = std::move(done);
      return;
    }
  }
  done();
}

std::size_t ConnectionRegistry::count() const {
  const std::lock_guard lock(mutex_);
  return taken_;
}

}  // namespace pumpwright::server
