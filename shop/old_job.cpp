#include "shop/old_job.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "job/decode.h"
#include "job/json_reader.h"

namespace pumpwright::shop {
namespace {

using job::JsonReader;

constexpr std::size_t number_bytes_max = 64;
constexpr std::size_t name_bytes_max = 80;
constexpr std::size_t prose_bytes_max = 2048;

struct Prose {
  const char* key;
  std::string OldJob::*text;
  std::size_t bytes_max;
};

constexpr Prose texts[] = {
    {"pump", &OldJob::pump, name_bytes_max},    {"customer", &OldJob::customer, name_bytes_max},
    {"seal", &OldJob::seal, name_bytes_max},    {"reason", &OldJob::reason, prose_bytes_max},
    {"found", &OldJob::found, prose_bytes_max}, {"changed", &OldJob::changed, prose_bytes_max}};

std::string name_in(const JsonReader& at, std::size_t bytes_max) {
  std::string text = at.text();
  if (text.empty() || text.size() > bytes_max) at.refuse("1 to " + std::to_string(bytes_max) + " bytes");
  return text;
}

job::UtcTime day_in(const JsonReader& at) {
  try {
    return job::parse_start_of_day(at.text(16), at.field());
  } catch (const BadInput& e) {
    throw e.at(at.pointer());
  }
}

std::map<std::string, Written> readings_in(const JsonReader& at) {
  std::map<std::string, Written> out;
  at.allow_only(checks_of_lives);
  for (const auto check : checks_of_lives)
    if (const auto reading = at.optional(check))
      out.emplace(check, job::decode_written(*reading, Kind::length));
  return out;
}

nlohmann::ordered_json told(const OldJob& job) {
  nlohmann::ordered_json json{{"number", job.number}, {"serial", job.serial}};
  for (const auto& [key, text, bytes_max] : texts)
    if (!(job.*text).empty()) json[key] = job.*text;
  json["came_in"] = job::format_utc_day(job.came_in);
  if (job.went_out) json["went_out"] = job::format_utc_day(*job.went_out);
  if (job.came_for != job::CameFor::not_said) json["came_for"] = job::word_of(job.came_for);
  for (const auto& [check, reading] : job.readings)
    json["readings"][check] =
        reading.unit_was_written ? reading.text : reading.text + " " + std::string(reading.unit->symbol);
  return json;
}

}  // namespace

std::string encode_old_job(const OldJob& job) {
  nlohmann::ordered_json json = told(job);
  json["from"] = {{"file", job.file}, {"line", job.line}};
  return json.dump();
}

OldJob decode_old_job(std::string_view payload) {
  const JsonReader at = JsonReader::parse(payload);
  at.allow_only({"number", "serial", "pump", "customer", "seal", "came_in", "went_out", "came_for", "reason",
                 "found", "changed", "readings", "from"});
  OldJob job;
  job.number = name_in(at.required("number"), number_bytes_max);
  job.serial = name_in(at.required("serial"), name_bytes_max);
  for (const auto& [key, text, bytes_max] : texts)
    if (const auto value = at.optional(key)) job.*text = value->text(bytes_max);
  job.came_in = day_in(at.required("came_in"));
  if (const auto out = at.optional("went_out")) job.went_out = day_in(*out);
  if (job.went_out && *job.went_out < job.came_in)
    at.required("went_out").refuse("a day not before the one on which it came in");
  if (const auto why = at.optional("came_for"))
    job.came_for = job::came_for_from(why->word({"fault", "other"}));
  if (const auto readings = at.optional("readings")) job.readings = readings_in(*readings);
  const JsonReader from = at.required("from");
  from.allow_only({"file", "line"});
  job.file = from.required("file").text(256);
  job.line = static_cast<std::size_t>(from.required("line").integer(1, 100'000'000));
  return job;
}

bool tell_the_same(const OldJob& a, const OldJob& b) {
  return told(a) == told(b);
}

JobCard card_of(const OldJob& job, const store::StoredEvent& last) {
  JobCard card{.number = job.number,
               .customer = job.customer,
               .pump = job.pump,
               .serial = job.serial,
               .seal = job.seal,
               .came_for = job.came_for,
               .bench = {},
               .waiting = {},
               .released = job.went_out.has_value(),
               .old = true,
               .opened = job::format_utc_time(job.came_in),
               .released_at = job.went_out ? job::format_utc_time(*job.went_out) : std::string(),
               .last_at = last.accepted_at,
               .last_actor = last.actor,
               .seq = last.seq};
  for (const auto& [check, reading] : job.readings)
    card.readings[check] = reading.si;
  return card;
}

}  // namespace pumpwright::shop
