#include "bench/load/job_viewer.h"

#include <fmt/format.h>

namespace pumpwright::bench {

void JobViewer::on_change() {
  stale_ = true;
  if (!asking_) ask();
}

void JobViewer::ask() {
  asking_ = true;
  stale_ = false;
  const auto sent = std::chrono::steady_clock::now();
  exchange_.ask({"GET", "/api/jobs/" + job_, ""}, [this, sent](const Answer& answer) {
    asking_ = false;
    if (answer.status != 200)
      return faults_.add(fmt::format("reading {}: {} {}", job_, answer.status, answer.body.substr(0, 300)));
    seconds_.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - sent).count());
    if (stale_) ask();
  });
}

}  // namespace pumpwright::bench
