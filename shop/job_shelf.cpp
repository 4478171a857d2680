#include "shop/job_shelf.h"

#include "shop/job_fold.h"
#include "shop/job_index.h"
#include "shop/refused.h"
#include "shop/shop.h"

namespace pumpwright::shop {

std::shared_ptr<ShelvedJob> JobShelf::place(const std::string& number) {
  const std::lock_guard lock(mutex_);
  if (const auto known = kept_.find(number); known != kept_.end()) {
    used_.splice(used_.begin(), used_, known->second.age);
    return known->second.job;
  }
  if (kept_.size() >= jobs_max) {
    // One that somebody holds right now stays: two places for one job must never be.
    for (auto oldest = std::prev(used_.end()); oldest != used_.begin(); --oldest)
      if (kept_.at(*oldest).job.use_count() == 1) {
        kept_.erase(*oldest);
        used_.erase(oldest);
        break;
      }
  }
  used_.push_front(number);
  return kept_.emplace(number, Kept{std::make_shared<ShelvedJob>(), used_.begin()}).first->second.job;
}

void JobShelf::load(ShelvedJob& job, const std::string& number) {
  if (job.loaded) return;
  const auto events = events_.read(job_stream(number));
  if (events.empty())
    throw Refused(Refusal::not_found, {"There is no job " + number + ".", "No hay trabajo " + number + "."});
  job.log = log_of(events);
  job.head = {events.back().seq, events.back().hash};
  job.picture.reset();
  job.loaded = true;
}

void JobShelf::forget(ShelvedJob& job) {
  job.loaded = false;
  job.picture.reset();
}

}  // namespace pumpwright::shop
