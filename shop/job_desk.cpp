#include "shop/job_desk.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "job/instrument_json.h"
#include "job/json_reader.h"
#include "job/snapshot_json.h"
#include "shop/appending.h"
#include "shop/job_index.h"
#include "shop/planning.h"
#include "shop/release.h"

namespace pumpwright::shop {
namespace {

using job::JsonReader;

// A tablet's clock may be ahead by this much.
constexpr std::int64_t clock_slack_s = 300;

// What each event from a device needs; events that only the shop itself writes are not here.
const std::map<std::string, Act>& acts() {
  static const std::map<std::string, Act> table{{"reading", Act::work},
                                                {"step-done", Act::work},
                                                {"note", Act::work},
                                                {"row-logged", Act::work},
                                                {"attachment-added", Act::work},
                                                {"placed", Act::work},
                                                {"waiting", Act::work},
                                                {"make-up-set", Act::work},
                                                {"hold-released", Act::release_hold},
                                                {"deviation-accepted", Act::answer_for},
                                                {"reopened", Act::answer_for}};
  return table;
}

void want_act(const Hand& hand, Act act) {
  if (!may(hand.person.role, act))
    throw Refused(Refusal::not_allowed, {"A " + title_of(hand.person.role).en + " may not do that.",
                                         "El papel de " + title_of(hand.person.role).es + " no lo permite."});
}

void want_type(const Hand& hand, const HandedIn& event) {
  const auto known = acts().find(event.type);
  if (known == acts().end()) {
    std::string words;
    for (const auto& [type, act] : acts())
      words += (words.empty() ? "one of " : ", ") + type;
    throw BadInput({.field = "type", .place = "", .value = event.type, .expected = words});
  }
  want_act(hand, known->second);
}

void want_number(const std::string& number) {
  const auto fits = [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-' ||
           c == '_' || c == '.';
  };
  if (number.empty() || number.size() > 40 || number.front() == '.' ||
      !std::all_of(number.begin(), number.end(), fits))
    throw BadInput({.field = "number",
                    .place = "/job/number",
                    .value = number,
                    .expected = "1 to 40 letters, digits, '-', '_' or '.', such as G-2117"});
}

void want_past(const JsonReader& at, std::int64_t now_ms) {
  const auto time = at.optional("time");
  if (!time || !time->is_string()) return;
  if (job::parse_utc_time(time->text(64), "time").seconds > now_ms / 1000 + clock_slack_s)
    time->refuse("a time that is not ahead of the shop's clock");
}

job::JudgedReading only(const job::CheckFinding& finding, const std::string& reading) {
  for (const auto& judged : finding.readings)
    if (judged.reading_id == reading) return judged;
  return {};
}

}  // namespace

// Events on their way into one job, in order, each applied to its log before the next. When they do not come
// to be written the log holds what is not in the store, and is read anew.
struct JobDesk::Batch {
  Batch(ShelvedJob& its_job, std::string its_number) : job(its_job), number(std::move(its_number)) {}
  ~Batch() {
    if (!events.empty() || log_in_doubt) JobShelf::forget(job);
  }
  Batch(const Batch&) = delete;
  Batch& operator=(const Batch&) = delete;

  ShelvedJob& job;
  std::string number;
  std::vector<store::NewEvent> events;
  store::IndexChange value_changes;
  bool log_in_doubt = false;
};

JobDesk::JobDesk(store::Store& store, const Foundations& foundations, ShopDesk& shop)
    : store_(store),
      foundations_(foundations),
      shop_(shop),
      catalog_(Catalog::load(foundations.catalog_files)),
      shelf_(store.events()) {}

void JobDesk::add(const Hand& hand, const HandedIn& event, const JsonReader& payload, Batch& batch) const {
  job::JobLog& log = batch.job.log;
  const auto replaced_before = log.state().replaced.size();
  batch.log_in_doubt = true;
  try {
    log.apply({batch.job.head.seq + batch.events.size() + 1, event.type, hand.person.id, "", event.payload},
              payload);
  } catch (const BadInput&) {
    batch.log_in_doubt = false;  // it is as it was
    throw;
  }
  if (event.type == "reading") add_last_reading(log, replaced_before, batch.value_changes);
  batch.events.push_back(
      {event.type, hand.person.id, hand.device, event.device_seq, event.key, event.payload});
  batch.log_in_doubt = false;
}

void JobDesk::add(const Hand& hand, const HandedIn& event, Batch& batch) const {
  add(hand, event, JsonReader::parse(event.payload), batch);
}

void JobDesk::add_plan_made(const Hand& hand, const HandedIn& event, Batch& batch) const {
  const auto snapshot = plan_for(batch.job.log.job().file, *shop_.state(),
                                 {catalog_, foundations_.step_files, foundations_.program});
  const nlohmann::json payload{{"snapshot", job::encode_snapshot(snapshot)}};
  const auto before = batch.job.log;
  add(hand, {event.key + "/p", event.device_seq, "plan-made", payload.dump()}, batch);
  add_plan(before, batch.job.log, batch.value_changes);
}

// An instrument the job does not know yet, or that was calibrated since, joins it before its reading: the
// event that says so, nothing when it has joined before.
std::optional<HandedIn> JobDesk::joining_of(const HandedIn& event, const JsonReader& payload,
                                            const Batch& batch) const {
  const auto id = payload.optional("instrument");
  if (!id || !id->is_string()) return std::nullopt;
  const auto shop = shop_.state();
  const auto in_shop = shop->instruments.find(id->text(64));
  if (in_shop == shop->instruments.end()) return std::nullopt;
  const auto& in_job = batch.job.log.snapshot().instruments;
  if (const auto found = in_job.find(in_shop->first); found != in_job.end()) {
    const auto& known = found->second;
    const bool same = known.calibrated == in_shop->second.calibrated && known.due == in_shop->second.due;
    const bool again =
        std::any_of(known.calibrated_again.begin(), known.calibrated_again.end(), [&](const auto& span) {
          return span.from == in_shop->second.calibrated && span.to == in_shop->second.due;
        });
    if (same || again) return std::nullopt;
  }
  const nlohmann::ordered_json joined{{"instrument", job::encode_instrument(in_shop->second)}};
  return HandedIn{event.key + "/i", event.device_seq, "instrument-joined", joined.dump()};
}

void JobDesk::take(const Hand& hand, const HandedIn& event, Batch& batch) const {
  want_type(hand, event);
  if (event.key.empty() || event.key.size() > 56)
    throw BadInput({.field = "key", .place = "", .value = event.key, .expected = "1 to 56 characters"});
  const auto at = JsonReader::parse(event.payload);
  want_past(at, foundations_.now_ms());
  if (event.type == "attachment-added" && !store_.attachments().has(at.required("hash").text(64)))
    at.required("hash").refuse("the hash of a file that was handed in before");
  const auto joining = event.type == "reading" ? joining_of(event, at, batch) : std::nullopt;
  if (joining || event.type == "make-up-set") return take_with(joining, hand, event, batch);
  add(hand, event, at, batch);
}

// An event that brings others: all of them or none. So the log is copied, which the many without do not need.
void JobDesk::take_with(const std::optional<HandedIn>& joining, const Hand& hand, const HandedIn& event,
                        Batch& batch) const {
  const auto count_before = batch.events.size();
  job::JobLog log_before = batch.job.log;
  store::IndexChange changes_before = batch.value_changes;
  try {
    if (joining) add(hand, *joining, batch);
    add(hand, event, batch);
    if (event.type == "make-up-set") add_plan_made(hand, event, batch);
  } catch (...) {
    batch.events.resize(count_before);
    batch.job.log = std::move(log_before);
    batch.value_changes = std::move(changes_before);
    throw;
  }
}

void JobDesk::write(Batch& batch, Receipt& receipt) {
  if (batch.events.empty()) return;
  ShelvedJob& job = batch.job;
  store::StoredEvent last;
  last.actor = batch.events.back().actor;
  last.seq = job.head.seq + batch.events.size();
  const JobCard card = card_of(job.log, last);
  const store::Append append{.stream = job_stream(batch.number),
                             .events = std::move(batch.events),
                             .expected_head = job.head,
                             .index_change = [&](std::span<const store::StoredEvent> stored) {
                               store::IndexChange stamped = batch.value_changes;
                               JobCard at = card;
                               at.last_at = stored.back().accepted_at;
                               if (at.released && at.released_at.empty()) at.released_at = at.last_at;
                               stamped.entry = entry_of(at);
                               return stamped;
                             }};
  batch.events.clear();
  batch.log_in_doubt = true;
  const store::Appended done = appended_or_throw(store_.events(), append);
  for (const auto& e : done.events)
    receipt.accepted.push_back({e.key, e.seq, store::to_hex(e.hash)});
  job.log.accepted(done.events.back().accepted_at);
  job.head = done.head;
  job.picture.reset();
  job.loaded = true;
  // One key twice in a batch is one event in the store and two in the log.
  batch.log_in_doubt = done.fresh != append.events.size();
}

bool JobDesk::was_stored(const std::string& number, const HandedIn& event, Receipt& receipt) const {
  const auto stored = store_.events().find(event.key);
  if (!stored) return false;
  if (stored->stream != job_stream(number) || stored->type != event.type || stored->payload != event.payload)
    throw BadInput(
        {.field = "key", .place = "", .value = event.key, .expected = "a key that no other event has"});
  receipt.accepted.push_back({stored->key, stored->seq, store::to_hex(stored->hash)});
  return true;
}

Receipt JobDesk::hand_in(const Hand& hand, const std::string& number, std::span<const HandedIn> events) {
  const auto job = shelf_.place(number);
  const std::lock_guard lock(job->mutex);
  shelf_.load(*job, number);
  Receipt receipt;
  Batch batch(*job, number);
  std::vector<std::string> taken;
  for (const auto& event : events) {
    try {
      if (was_stored(number, event, receipt)) continue;
      if (batch.events.size() + 3 > store::events_per_append_max)
        throw BadInput({.field = "events", .place = "", .value = "", .expected = "fewer events at once"});
      take(hand, event, batch);
      taken.push_back(event.key);
    } catch (...) {
      if (batch.log_in_doubt) throw;
      receipt.refused.push_back({event.key, std::current_exception()});
    }
  }
  try {
    write(batch, receipt);
  } catch (...) {
    for (const auto& key : taken)
      receipt.refused.push_back({key, std::current_exception()});
  }
  receipt.seq = job->head.seq;
  receipt.head = store::to_hex(job->head.hash);
  return receipt;
}

std::string JobDesk::open_job(const Hand& hand, const NewJob& wanted) {
  want_act(hand, Act::open_job);
  const auto at = JsonReader::parse(wanted.payload);
  at.allow_only({"job", "make_up", "bench"});
  std::string number = at.required("job").required("number").text(40);
  want_number(number);
  nlohmann::ordered_json header = at.required("job").raw();
  if (!header.contains("opened")) header["opened"] = second_text(foundations_.now_ms());
  Receipt receipt;
  const HandedIn opened{wanted.envelope.key, wanted.envelope.device_seq, "opened", header.dump()};
  const auto job = shelf_.place(number);
  const std::lock_guard lock(job->mutex);
  if (const auto before = store_.events().find(opened.key); before && before->stream == job_stream(number))
    return number;
  if (store_.events().head(job_stream(number)).seq != 0)
    throw Refused(Refusal::conflict,
                  {"Job " + number + " is there already.", "El trabajo " + number + " ya existe."});
  job->log = {};
  job->head = {};
  Batch batch(*job, number);
  const auto put = [&](const char* suffix, const char* type, const nlohmann::ordered_json& payload) {
    add(hand, {opened.key + suffix, opened.device_seq, type, payload.dump()}, batch);
  };
  add(hand, opened, batch);
  put("/m", "make-up-set", {{"make_up", at.required("make_up").raw()}});
  add_plan_made(hand, opened, batch);
  if (const auto bench = at.optional("bench"); bench && bench->is_string() && !bench->text(64).empty())
    put("/b", "placed", {{"bench", bench->text(64)}});
  write(batch, receipt);
  return number;
}

std::shared_ptr<const JobPicture> JobDesk::picture_of(ShelvedJob& job) const {
  if (job.picture) return job.picture;
  auto picture = std::make_shared<JobPicture>();
  picture->logged = job.log.job();
  picture->snapshot = job.log.snapshot();
  picture->state = job.log.state();
  picture->judgement = job::judge(picture->snapshot, picture->state);
  picture->seq = job.head.seq;
  picture->head = store::to_hex(job.head.hash);
  job.picture = picture;
  return picture;
}

std::shared_ptr<const JobPicture> JobDesk::picture(const std::string& number) {
  const auto job = shelf_.place(number);
  const std::lock_guard lock(job->mutex);
  shelf_.load(*job, number);
  return picture_of(*job);
}

TriedReading JobDesk::try_reading(const Hand& hand, const std::string& number, const std::string& payload) {
  ShelvedJob trial;  // on no shelf
  {
    const auto job = shelf_.place(number);
    const std::lock_guard lock(job->mutex);
    shelf_.load(*job, number);
    trial.log = job->log;
    trial.head = job->head;
  }
  Batch batch(trial, number);
  const HandedIn event{"try", 0, "reading", payload};
  take(hand, event, batch);
  const auto judgement = job::judge(trial.log.snapshot(), trial.log.state());
  const auto at = JsonReader::parse(payload);
  job::CheckFinding finding = *judgement.find(at.required("check").text(128));
  const job::JudgedReading tried = only(finding, at.required("id").text(128));
  finding.readings = {tried};
  finding.verdict = tried.verdict;
  finding.reason = tried.reason;
  return {std::get<job::ReadingTaken>(trial.log.job().file.events.back()).reading, finding};
}

Receipt JobDesk::release(const Hand& hand, const std::string& number, const HandedIn& envelope,
                         std::string_view password, const std::string& statement) {
  want_act(hand, Act::answer_for);
  if (statement.empty() || statement.size() > 2048)
    throw BadInput(
        {.field = "statement", .place = "", .value = statement, .expected = "1 to 2048 characters"});
  const SigningKey key = shop_.key_of(hand.person, password);
  const auto job = shelf_.place(number);
  const std::lock_guard lock(job->mutex);
  shelf_.load(*job, number);
  Receipt receipt;
  if (const auto before = store_.events().find(envelope.key);
      before && before->stream == job_stream(number)) {
    receipt.accepted.push_back({before->key, before->seq, store::to_hex(before->hash)});
  } else {
    if (job->log.job().released)
      throw Refused(Refusal::conflict, {"The pump is released already.", "La bomba ya está liberada."});
    const auto picture = picture_of(*job);
    if (const auto& open = picture->judgement.open; !open.empty())
      throw Refused(Refusal::conflict,
                    {fmt::format("{} points are open, the first: {}", open.size(), open.front().what.en),
                     fmt::format("{} puntos abiertos, el primero: {}", open.size(), open.front().what.es)});
    Release release{job_stream(number),
                    job->head.seq,
                    store::to_hex(job->head.hash),
                    statement,
                    second_text(foundations_.now_ms()),
                    hand.person,
                    ""};
    sign(release, key);
    Batch batch(*job, number);
    add(hand, {envelope.key, envelope.device_seq, "signed", encode_release(release)}, batch);
    write(batch, receipt);
  }
  receipt.seq = job->head.seq;
  receipt.head = store::to_hex(job->head.hash);
  return receipt;
}

job::Snapshot JobDesk::plan_for_make_up(const std::string& make_up_json) const {
  job::JobFile file;
  file.make_up = job::decode_make_up(JsonReader::parse(make_up_json));
  return plan_for(std::move(file), *shop_.state(), {catalog_, foundations_.step_files, foundations_.program});
}

void JobDesk::spread_adoption(const Hand& hand, const std::string& limit, const std::string& time) {
  for (const auto& entry : store_.index().open_entries()) {
    const std::string number = number_of(entry.stream);
    const auto job = shelf_.place(number);
    const std::lock_guard lock(job->mutex);
    shelf_.load(*job, number);
    const auto& plan = job->log.snapshot().plan;
    const bool concerns = std::any_of(plan.steps.begin(), plan.steps.end(), [&](const job::Step& step) {
      return std::any_of(step.checks.begin(), step.checks.end(), [&](const job::Check& check) {
        return std::any_of(check.limits.begin(), check.limits.end(),
                           [&](const job::Limit& l) { return l.id == limit; });
      });
    });
    if (!concerns || job->log.snapshot().adoptions.count(limit) != 0) continue;
    Batch batch(*job, number);
    const nlohmann::ordered_json payload{{"limit", limit}, {"by", hand.person.id}, {"time", time}};
    const std::string key = store::to_hex(store::blake2b_256(fmt::format("{}\n{}\n{}", number, limit, time)));
    add(hand, {key, 0, "limit-adopted", payload.dump()}, batch);
    Receipt receipt;
    write(batch, receipt);
  }
}

}  // namespace pumpwright::shop
