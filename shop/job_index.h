// What the derived tables hold about a job: the card it is listed and found by, and its readings by check.
// They follow from the job's stream alone.
#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>

#include "job/job_log.h"
#include "shop/job_card.h"
#include "store/event.h"
#include "store/index.h"

namespace pumpwright::shop {

// "job/G-2117".
std::string job_stream(const std::string& number);
// The number in such a name; empty for another stream.
std::string number_of(const std::string& stream);

// "old/G-88": of a job from records older than this program.
std::string old_stream(const std::string& number);
bool is_old(const std::string& stream);

// The card as the log and its last event stand.
JobCard card_of(const job::JobLog& log, const store::StoredEvent& last);

store::IndexEntry entry_of(const JobCard& card);
// The card in an entry made by entry_of.
JobCard card_in(const store::IndexEntry& entry);
// Whether the entry was made by this program's entry_of; an older one's lacks what is asked of it now.
bool is_current(const store::IndexEntry& entry);

// "check/end-float".
std::string series_of(std::string_view check);
// The check in such a name; empty for another series.
std::string check_of_series(const std::string& series);

// Readings that stand, as values of the series "check/<id>": the mean of a value or of diameters, the TIR of
// a sweep, in SI; confirmations have none.
std::vector<store::IndexValue> values_of(const job::JobLog& log);
std::vector<store::IndexValue> values_of(const job::JobState& state, const std::string& stream);

// Of several such values of one check the one read last.
std::map<std::string, double> last_by_check(const std::vector<store::IndexValue>& values);

// Both add to `change`, which takes the values from an earlier state of the log to that before the event, so
// that it takes them to the one after it. The entry is the caller's.
//
// The reading that was applied to the log last; `replaced_before`: how many were replaced when it came.
void add_last_reading(const job::JobLog& log, std::size_t replaced_before, store::IndexChange& change);
// A plan made anew, with which readings may be set aside.
void add_plan(const job::JobLog& before, const job::JobLog& after, store::IndexChange& change);

}  // namespace pumpwright::shop
