// The hand at a tablet: hands in one reading after another, each under its own key and number, and waits for
// each to be acknowledged. Now and then it hands one in twice, as a tablet does whose answer was lost.
#pragma once

#include <chrono>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include <boost/asio/steady_timer.hpp>
#include <nlohmann/json.hpp>

#include "bench/load/exchange.h"
#include "bench/load/faults.h"

namespace pumpwright::bench {

using Clock = std::chrono::steady_clock;

struct Acknowledged {
  std::string key;
  std::uint64_t seq = 0;
  std::uint64_t device_seq = 0;  // 0: an event the server put before the reading by itself
  Clock::time_point sent, answered;
};

struct WriterSetting {
  std::string device, actor, job;
  std::string key_prefix;                                    // unique to this tablet
  const std::vector<nlohmann::ordered_json>* readings = {};  // taken in turn; id, time and actor are put in
  std::size_t first_reading = 0;
  std::chrono::milliseconds think{0};  // on average, between an answer and the next reading
  unsigned resend_every = 0;           // every so many readings one goes twice; 0: none
  unsigned seed = 0;
};

class Writer {
 public:
  Writer(boost::asio::io_context& io, Visitor& visitor, WriterSetting setting, Faults& faults);

  // Writes until `end`, then finishes what was begun.
  void write_until(Clock::time_point end);
  bool finished() const { return finished_; }
  const std::vector<Acknowledged>& acknowledged() const { return acknowledged_; }
  std::size_t resent() const { return resent_; }
  const WriterSetting& setting() const { return setting_; }

 private:
  void think();
  void hand_in();
  void send(bool again);
  void on_answer(const Answer& answer, bool again);
  void take(const nlohmann::json& receipt, bool again);
  void fail(const std::string& what);
  std::string body_of_next();

  Exchange exchange_;
  WriterSetting setting_;
  Faults& faults_;
  boost::asio::steady_timer pause_;
  std::minstd_rand random_;
  Clock::time_point end_;
  Clock::time_point sent_;
  std::uint64_t device_seq_ = 0;
  std::string key_, body_;  // of the reading on its way
  std::uint64_t seq_ = 0;   // of the reading acknowledged last
  bool finished_ = true;
  std::size_t resent_ = 0;
  std::vector<Acknowledged> acknowledged_;
};

}  // namespace pumpwright::bench
