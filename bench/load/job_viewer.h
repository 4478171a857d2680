// What the page does when it hears of a change: it reads the job anew, one reading of it at a time, and once
// more when something changed meanwhile.
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "bench/load/exchange.h"
#include "bench/load/faults.h"

namespace pumpwright::bench {

class JobViewer {
 public:
  JobViewer(boost::asio::io_context& io, Visitor& visitor, std::string job, Faults& faults)
      : exchange_(io, visitor), job_(std::move(job)), faults_(faults) {}

  void on_change();
  bool idle() const { return !asking_; }
  void close() { exchange_.close(); }
  const std::vector<double>& seconds() const { return seconds_; }  // of each answer

 private:
  void ask();

  Exchange exchange_;
  std::string job_;
  Faults& faults_;
  bool asking_ = false;
  bool stale_ = false;
  std::vector<double> seconds_;
};

}  // namespace pumpwright::bench
