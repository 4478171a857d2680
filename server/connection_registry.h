// Which connections are open: how many in total and from one address, and a way to tell all of them to
// finish.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>

namespace pumpwright::server {

class LiveConnection {
 public:
  virtual ~LiveConnection() = default;
  virtual void finish() = 0;  // from any thread: end as soon as what was begun is done
};

class ConnectionRegistry {
 public:
  struct Limits {
    std::size_t connections_max = 1;
    std::size_t per_address_max = 1;
  };

  explicit ConnectionRegistry(Limits limits) : limits_(limits) {}

  // A place for one connection, free again when the result is destroyed; null when there is none left in
  // total or for that address.
  std::shared_ptr<void> take_place(const std::string& address);
  void add(const std::weak_ptr<LiveConnection>& connection);

  void finish_all();
  // Calls `done` once as soon as no place is taken; at once when none is.
  void when_empty(std::function<void()> done);
  std::size_t count() const;

 private:
  void give_back(const std::string& address);

  Limits limits_;
  mutable std::mutex mutex_;
  std::size_t taken_ = 0;
  std::map<std::string, std::size_t> taken_by_address_;
  std::map<std::size_t, std::weak_ptr<LiveConnection>> open_;
  std::size_t next_ = 0;
  std::size_t prune_at_ = 64;
  std::function<void()> when_empty_;
};

}  // namespace pumpwright::server
