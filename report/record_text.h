// The sentences of the build record that are made from the record itself.
#pragma once

#include <string>

#include "job/job_state.h"
#include "job/judgement.h"
#include "job/plan.h"
#include "job/text.h"

namespace pumpwright::report {

// At most `characters_max` characters of a text of unbounded length; says how many more the record holds.
std::string shortened(const std::string& text, std::size_t characters_max, job::Language language);

// "2026-11-18 08:04", in UTC; the page says so once.
std::string moment_text(job::UtcTime time);

// What the hand wrote, in one line: values as written, or how many points between which two.
std::string reading_as_written(const job::Reading& reading, job::Language language);

// Every point of a sweep as written, "0°: 0 thou; 30°: +0.5 thou"; how many there are when there are more
// than can be listed.
std::string sweep_as_written(const job::SweepReading& sweep, job::Language language);

// "dial-1 · J.M. · 2026-11-18 08:28".
std::string reading_circumstances(const job::Reading& reading);

// The reading of that id among all standing ones; null when there is none (a chain has none).
const job::Reading* find_reading(const job::JobState& state, const std::string& id);

// The moment of the last thing that happened; `opened` when nothing did.
job::UtcTime last_event(const job::JobState& state, job::UtcTime opened);

// "{}" texts: the first {} replaced by `value`.
std::string fill(const std::string& text, const std::string& value);

}  // namespace pumpwright::report
