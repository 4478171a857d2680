// The other half of a tablet: listens to the event stream of its job and notes when it heard of each event.
#pragma once

#include <array>
#include <chrono>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>

#include "bench/load/exchange.h"
#include "bench/load/faults.h"

namespace pumpwright::bench {

struct Heard {
  std::uint64_t seq = 0;
  std::chrono::steady_clock::time_point at;
};

class Listener {
 public:
  struct Setting {
    std::string device, job;
    std::uint64_t after = 0;          // hears everything after this event
    std::function<void()> on_change;  // may be empty
  };

  Listener(boost::asio::io_context& io, const Visitor& visitor, Setting setting, Faults& faults);

  void listen();
  bool listens() const { return listens_; }
  std::uint64_t last_seq() const { return heard_.empty() ? setting_.after : heard_.back().seq; }
  // In the order of arrival.
  const std::vector<Heard>& heard() const { return heard_; }
  const Setting& setting() const { return setting_; }
  void close();

 private:
  void send_request();
  void read();
  void take_lines();
  void take_head_line(std::string_view line);
  void take_stream_line(std::string_view line);
  void fail(const std::string& what);

  boost::asio::ip::tcp::socket socket_;
  const Visitor& visitor_;
  Setting setting_;
  Faults& faults_;
  std::string request_;
  std::array<char, 16384> bytes_{};
  std::string text_;  // read and not yet a whole line
  bool in_head_ = true;
  bool listens_ = false;
  bool closing_ = false;
  std::uint64_t id_ = 0;  // of the message that is being read; 0: none
  std::vector<Heard> heard_;
};

}  // namespace pumpwright::bench
