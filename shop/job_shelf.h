// The jobs that are being worked on, kept in memory so that not every reading replays a whole stream.
#pragma once

#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "job/job_log.h"
#include "store/event_log.h"

namespace pumpwright::shop {

struct JobPicture;

// One job. Whoever reads or changes it holds `mutex`.
struct ShelvedJob {
  std::mutex mutex;
  bool loaded = false;
  job::JobLog log;  // while `mutex` is held it may be ahead of `head` by events that are being written
  store::Head head;
  std::shared_ptr<const JobPicture> picture;  // of `log`; made when first asked for
};

class JobShelf {
 public:
  explicit JobShelf(const store::EventLog& events) : events_(events) {}

  // A place for that job, not yet loaded perhaps. The ones used longest ago are forgotten.
  std::shared_ptr<ShelvedJob> place(const std::string& number);

  // Reads the stream unless that was done. The caller holds job.mutex. Refused::not_found when there is no
  // such job.
  void load(ShelvedJob& job, const std::string& number);

  // Makes the next load read the stream again: something went wrong while it was written.
  static void forget(ShelvedJob& job);

 private:
  static constexpr std::size_t jobs_max = 512;
  struct Kept {
    std::shared_ptr<ShelvedJob> job;
    std::list<std::string>::iterator age;
  };

  const store::EventLog& events_;
  std::mutex mutex_;
  std::list<std::string> used_;  // most recent first
  std::map<std::string, Kept> kept_;
};

}  // namespace pumpwright::shop
