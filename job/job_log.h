// A job as the shop's log holds it: the events of its stream, and what stands after them.
//
// The log keeps more than a job file does (notes, photos, places, signatures); readings, steps, holds and
// deviations are the very same events, so a logged job is judged by the same code.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "job/job_file.h"
#include "job/job_state.h"

namespace pumpwright::job {

// One event of a job's stream. `payload` is the JSON text that was handed in; `at` when the shop accepted it.
struct LoggedEvent {
  std::uint64_t seq = 0;
  std::string type;  // "opened", "make-up-set", "plan-made", "reading", …; see docs/record.md
  std::string actor;
  std::string at;  // UTC, ISO 8601 with milliseconds; empty: not accepted yet, see JobLog::accepted
  std::string payload;
};

struct LoggedReading {
  std::uint64_t seq = 0;
  std::string id;
  std::string check;
  std::string replaces;  // empty: none
  std::string payload;
};

struct Note {
  std::string step, text, actor, at;
};

// What a data logger handed in for a bench test: one element of a list of its sheet, as it was written. It
// proves nothing until somebody takes it into a reading.
struct LoggedRow {
  std::uint64_t seq = 0;
  std::string check;
  std::string row;  // a JSON object
};

struct AttachedFile {
  std::string hash, media_type, name, step, check, actor, at;
};

struct Signature {
  std::uint64_t seq = 0;
  std::string as;  // "release"
  std::string person, statement, at;
  std::string head;  // hash of the last event that was signed
};

// An event that was accepted once and does not fit the plan made later; kept and shown, never judged.
struct SetAside {
  std::uint64_t seq = 0;
  std::string why;
};

struct LoggedJob {
  JobFile file;              // header, make-up, events that fit; the snapshot is JobLog::snapshot()
  std::string make_up_json;  // as entered
  std::string bench;
  std::string waiting;
  bool released = false;
  std::vector<LoggedReading> readings;
  std::vector<Note> notes;
  std::vector<LoggedRow> logged_rows;
  std::vector<AttachedFile> attachments;
  std::vector<Signature> signatures;
  std::vector<SetAside> set_aside;
};

// The fold over a job's stream, one event at a time.
class JobLog {
 public:
  // Throws BadInput when the event does not fit what stands, and leaves the log as it was.
  void apply(const LoggedEvent& event);
  // The same for an event whose payload was parsed already.
  void apply(const LoggedEvent& event, const JsonReader& payload);
  // The shop has accepted, at that time, all events that were applied without one.
  void accepted(const std::string& at);

  bool opened() const { return planned_; }  // has header, make-up and plan
  const LoggedJob& job() const { return job_; }
  // The snapshot of the plan, with the instruments and adopted limits that joined the job since.
  const Snapshot& snapshot() const { return *snapshot_; }
  const JobState& state() const { return fold_.state(); }

 private:
  void apply_bench_event(const LoggedEvent& event, const JsonReader& payload);
  bool apply_set_up(const LoggedEvent& event, const JsonReader& payload);
  bool apply_around(const LoggedEvent& event, const JsonReader& payload);
  void apply_row(const LoggedEvent& event, const JsonReader& payload);
  void make_plan(Snapshot snapshot);
  void join_instrument(const ShopInstrument& instrument);

  LoggedJob job_;
  // Shared by copies of the log and never changed in place: it is by far the largest part.
  std::shared_ptr<const Snapshot> snapshot_ = std::make_shared<const Snapshot>();
  JobFold fold_;
  std::vector<std::uint64_t> seq_of_event_;  // of job_.file.events
  bool planned_ = false;
};

}  // namespace pumpwright::job
