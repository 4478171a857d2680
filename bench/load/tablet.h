// One tablet of the load: signed in, at a job, listening and writing.
#pragma once

#include <memory>
#include <optional>

#include "bench/load/job_viewer.h"
#include "bench/load/listener.h"
#include "bench/load/writer.h"

namespace pumpwright::bench {

struct Person {
  std::string id, password;
};

// Signs in as a browser does: a visit for the first token, the password, the token that goes with the
// session. Throws std::runtime_error when the server does not let it in.
Visitor signed_in(boost::asio::io_context& io, const boost::asio::ip::tcp::endpoint& server,
                  const Person& person);

struct TabletSetting {
  WriterSetting writer;
  std::uint64_t after = 0;  // the job's last event before the load
  bool views = false;       // reads the job anew after every change, as the page does
};

class Tablet {
 public:
  Tablet(boost::asio::io_context& io, Visitor visitor, const TabletSetting& setting, Faults& faults);
  Tablet(const Tablet&) = delete;
  Tablet& operator=(const Tablet&) = delete;

  Writer& writer() { return *writer_; }
  Listener& listener() { return *listener_; }
  const std::vector<double>& view_seconds() const { return viewer_->seconds(); }
  bool idle() const { return writer_->finished() && viewer_->idle(); }
  void close();

 private:
  Visitor visitor_;  // what the three below refer to
  std::unique_ptr<Writer> writer_;
  std::unique_ptr<JobViewer> viewer_;
  std::unique_ptr<Listener> listener_;
};

}  // namespace pumpwright::bench
