#include "job/job_log.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "job/event_json.h"
#include "job/instrument_json.h"
#include "job/snapshot_json.h"

namespace pumpwright::job {
namespace {

[[noreturn]] void refuse(const std::string& field, const std::string& value, const std::string& expected) {
  throw BadInput({.field = field, .place = "", .value = value, .expected = expected});
}

std::string text_or_empty(const JsonReader& at, std::string_view key, std::size_t bytes_max) {
  const auto value = at.optional(key);
  return value && value->is_string() ? value->text(bytes_max) : std::string();
}

const std::string& actor_of(const Event& event) {
  if (const auto* taken = std::get_if<ReadingTaken>(&event)) return taken->reading.actor;
  if (const auto* done = std::get_if<StepDone>(&event)) return done->actor;
  if (const auto* released = std::get_if<HoldReleased>(&event)) return released->actor;
  return std::get<DeviationAccepted>(event).actor;
}

std::string want_sha(const JsonReader& at) {
  std::string hash = at.text(64);
  if (hash.size() != 64 || hash.find_first_not_of("0123456789abcdef") != std::string::npos)
    at.refuse("64 hexadecimal digits");
  return hash;
}

Note decode_note(const LoggedEvent& event, const JsonReader& at) {
  at.allow_only({"step", "text"});
  Note note{text_or_empty(at, "step", 128), at.required("text").text(4096), event.actor, event.at};
  if (note.text.empty()) at.required("text").refuse("a text that is not empty");
  return note;
}

AttachedFile decode_attached(const LoggedEvent& event, const JsonReader& at) {
  at.allow_only({"hash", "media_type", "name", "step", "check"});
  return {want_sha(at.required("hash")),
          at.required("media_type")
              .word({"image/jpeg", "image/png", "image/webp", "application/pdf", "audio/wav"}),
          text_or_empty(at, "name", 256),
          text_or_empty(at, "step", 128),
          text_or_empty(at, "check", 128),
          event.actor,
          event.at};
}

Signature decode_signature(const LoggedEvent& event, const JsonReader& at) {
  return {event.seq, at.required("as").word({"release"}), event.actor, at.required("statement").text(2048),
          event.at,  want_sha(at.required("head"))};
}

void add_calibration(ShopInstrument& instrument, CalibrationSpan span) {
  const auto same = [&](const CalibrationSpan& known) {
    return known.from == span.from && known.to == span.to;
  };
  if (same({instrument.calibrated, instrument.due})) return;
  auto& again = instrument.calibrated_again;
  if (std::none_of(again.begin(), again.end(), same)) again.push_back(span);
}

// A plan made anew knows the instrument as it is calibrated today; readings taken before keep their date.
void keep_calibrations(const ShopInstrument& before, ShopInstrument& now) {
  add_calibration(now, {before.calibrated, before.due});
  for (const auto& span : before.calibrated_again)
    add_calibration(now, span);
}

constexpr std::size_t rows_of_a_check_max = 200;
constexpr std::size_t row_bytes_max = 4096;

// Gives those that were applied last and have no time yet theirs.
template <class Dated>
void date_last(std::vector<Dated>& all, const std::string& at) {
  for (auto last = all.rbegin(); last != all.rend() && last->at.empty(); ++last)
    last->at = at;
}

}  // namespace

void JobLog::make_plan(Snapshot snapshot) {
  for (const auto& [id, before] : snapshot_->instruments)
    keep_calibrations(before, snapshot.instruments.emplace(id, before).first->second);
  snapshot.adoptions.insert(snapshot_->adoptions.begin(), snapshot_->adoptions.end());
  JobFold fold;
  std::vector<SetAside> set_aside = job_.set_aside;
  std::vector<Event> fitting;
  std::vector<std::uint64_t> seqs;
  for (std::size_t i = 0; i < job_.file.events.size(); ++i) {
    try {
      fold.apply(snapshot.plan, job_.file.events[i]);
      fitting.push_back(job_.file.events[i]);
      seqs.push_back(seq_of_event_[i]);
    } catch (const BadInput& e) {
      set_aside.push_back({seq_of_event_[i], e.what()});
    }
  }
  fold_ = std::move(fold);
  job_.file.events = std::move(fitting);
  seq_of_event_ = std::move(seqs);
  job_.set_aside = std::move(set_aside);
  snapshot_ = std::make_shared<const Snapshot>(std::move(snapshot));
  planned_ = true;
}

void JobLog::join_instrument(const ShopInstrument& instrument) {
  Snapshot now = *snapshot_;
  const auto [at, added] = now.instruments.emplace(instrument.id, instrument);
  if (!added && (at->second.unit != instrument.unit || at->second.quantity != instrument.quantity))
    refuse("instrument", instrument.id, "an instrument that reads in the unit it had when it joined the job");
  if (!added) keep_calibrations(instrument, at->second);
  snapshot_ = std::make_shared<const Snapshot>(std::move(now));
}

bool JobLog::apply_set_up(const LoggedEvent& event, const JsonReader& at) {
  if (event.type == "opened") {
    if (!job_.file.header.number.empty()) refuse("type", event.type, "a job that is not open yet");
    job_.file.header = decode_header(at);
  } else if (event.type == "make-up-set") {
    at.allow_only({"make_up"});
    const JsonReader make_up = at.required("make_up");
    job_.file.make_up = decode_make_up(make_up);
    job_.make_up_json = make_up.raw().dump();
  } else if (event.type == "plan-made") {
    at.allow_only({"snapshot"});
    if (job_.make_up_json.empty()) refuse("type", event.type, "a make-up before its plan");
    make_plan(decode_snapshot(at.required("snapshot")));
  } else if (event.type == "instrument-joined") {
    at.allow_only({"instrument"});
    join_instrument(decode_instrument(at.required("instrument")));
  } else if (event.type == "limit-adopted") {
    const Adoption adoption = decode_adoption(at);
    Snapshot now = *snapshot_;
    now.adoptions.emplace(adoption.limit, adoption);
    snapshot_ = std::make_shared<const Snapshot>(std::move(now));
  } else {
    return false;
  }
  return true;
}

void JobLog::apply_row(const LoggedEvent& event, const JsonReader& at) {
  at.allow_only({"check", "row"});
  const JsonReader check = at.required("check"), row = at.required("row");
  const Check* of = planned_ ? snapshot_->plan.find(check.text(128)) : nullptr;
  if (of == nullptr || !of->sheet) check.refuse("a check of this job that a bench test decides");
  if (job_.released) refuse("type", event.type, "a job that is not released, or was reopened");
  if (!row.is_object()) row.refuse("an object, such as {\"flow\": \"39.9 gpm\"}");
  LoggedRow out{event.seq, of->id, row.raw().dump()};
  if (out.row.size() > row_bytes_max) row.refuse("at most 4096 bytes");
  const auto standing = std::count_if(job_.logged_rows.begin(), job_.logged_rows.end(),
                                      [&](const LoggedRow& other) { return other.check == out.check; });
  if (static_cast<std::size_t>(standing) >= rows_of_a_check_max)
    check.refuse("at most 200 rows for one check");
  job_.logged_rows.push_back(std::move(out));
}

bool JobLog::apply_around(const LoggedEvent& event, const JsonReader& at) {
  if (event.type == "placed") {
    at.allow_only({"bench"});
    job_.bench = text_or_empty(at, "bench", 64);
  } else if (event.type == "waiting") {
    at.allow_only({"for"});
    job_.waiting = text_or_empty(at, "for", 256);
  } else if (event.type == "note") {
    job_.notes.push_back(decode_note(event, at));
  } else if (event.type == "row-logged") {
    apply_row(event, at);
  } else if (event.type == "attachment-added") {
    job_.attachments.push_back(decode_attached(event, at));
  } else if (event.type == "signed") {
    job_.signatures.push_back(decode_signature(event, at));
    job_.released = true;
  } else if (event.type == "reopened") {
    at.allow_only({"reason"});
    if (!job_.released) refuse("type", event.type, "a job that was released");
    if (at.required("reason").text(1024).empty()) at.required("reason").refuse("why it is opened again");
    job_.released = false;
  } else {
    return false;
  }
  return true;
}

void JobLog::apply_bench_event(const LoggedEvent& event, const JsonReader& payload) {
  if (!planned_) refuse("type", event.type, "a job that has its plan");
  if (job_.released) refuse("type", event.type, "a job that is not released, or was reopened");
  Event decoded = decode_event(payload, snapshot_->instruments);
  if (payload.required("event").text(64) != event.type)
    payload.required("event").refuse("the same word as the event's type, \"" + event.type + "\"");
  if (actor_of(decoded) != event.actor)
    payload.required("actor").refuse("the person who hands it in, \"" + event.actor + "\"");
  fold_.apply(snapshot_->plan, decoded);
  if (const auto* taken = std::get_if<ReadingTaken>(&decoded))
    job_.readings.push_back({event.seq, taken->reading.id, taken->reading.check,
                             taken->reading.replaces.value_or(""), event.payload});
  job_.file.events.push_back(std::move(decoded));
  seq_of_event_.push_back(event.seq);
}

void JobLog::apply(const LoggedEvent& event) {
  apply(event, JsonReader::parse(event.payload));
}

void JobLog::apply(const LoggedEvent& event, const JsonReader& payload) {
  if (event.type == "reading" || event.type == "step-done" || event.type == "hold-released" ||
      event.type == "deviation-accepted") {
    apply_bench_event(event, payload);
    return;
  }
  if (job_.file.header.number.empty() && event.type != "opened")
    refuse("type", event.type, "\"opened\" as the first event of a job");
  if (!apply_set_up(event, payload) && !apply_around(event, payload))
    refuse("type", event.type,
           "one of opened, make-up-set, plan-made, instrument-joined, limit-adopted, reading, step-done, "
           "hold-released, deviation-accepted, placed, waiting, note, row-logged, attachment-added, signed, "
           "reopened");
}

void JobLog::accepted(const std::string& at) {
  date_last(job_.notes, at);
  date_last(job_.attachments, at);
  date_last(job_.signatures, at);
}

}  // namespace pumpwright::job
