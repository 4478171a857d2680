#include "shop/old_shelf.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "shop/appending.h"
#include "shop/job_index.h"
#include "store/event_hash.h"

namespace pumpwright::shop {
namespace {

constexpr std::size_t with_one_sync = 250;

// Nothing when it was told in the same words last.
std::optional<store::Append> append_of(const store::EventLog& events, const OldJob& job,
                                       const std::string& actor, const std::string& device) {
  const std::string stream = old_stream(job.number);
  store::Head head;
  if (const auto told = events.read(stream); !told.empty()) {
    if (tell_the_same(decode_old_job(told.back().payload), job)) return std::nullopt;
    head = {told.back().seq, told.back().hash};
  }
  const std::string payload = encode_old_job(job);
  const std::string key =
      store::to_hex(store::blake2b_256(fmt::format("{}\n{}\n{}", stream, store::to_hex(head.hash), payload)));
  return store::Append{.stream = stream,
                       .events = {{old_job_event, actor, device, 0, key, payload}},
                       .expected_head = head,
                       .index_change = [job](std::span<const store::StoredEvent> stored) {
                         store::IndexChange change;
                         change.entry = entry_of(card_of(job, stored.back()));
                         return change;
                       }};
}

}  // namespace

OldTaken take_old_jobs(store::EventLog& events, const std::string& actor, const std::string& device,
                       std::span<const OldJob> jobs) {
  OldTaken done;
  for (std::size_t from = 0; from < jobs.size(); from += with_one_sync) {
    std::vector<store::Append> appends;
    for (const OldJob& job : jobs.subspan(from, std::min(with_one_sync, jobs.size() - from))) {
      if (auto append = append_of(events, job, actor, device))
        appends.push_back(std::move(*append));
      else
        ++done.known;
    }
    for (auto& result : events.append_together(appends))
      (void)appended_or_throw(std::move(result));
    done.taken += appends.size();
  }
  return done;
}

std::optional<OldJob> old_job(const store::EventLog& events, const std::string& number) {
  const auto told = events.read(old_stream(number));
  if (told.empty()) return std::nullopt;
  return decode_old_job(told.back().payload);
}

}  // namespace pumpwright::shop
