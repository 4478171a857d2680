#include "shop/record.h"

#include <algorithm>
#include <array>
#include <limits>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "shop/certificate.h"
#include "shop/job_index.h"
#include "shop/release.h"
#include "store/event_hash.h"

namespace pumpwright::shop {
namespace {

using job::JsonReader;
using nlohmann::ordered_json;

// Records are read whole; this is beyond any job.
constexpr job::JsonBounds record_bounds{.bytes_max = 256'000'000, .depth_max = 16};

std::string sealed_bytes(const Record& r) {
  const std::array<std::string, 5> fields{r.stream, r.shop, std::to_string(r.sealed_count), r.sealed_head,
                                          r.exported_at};
  return signed_bytes("pumpwright-record-1", fields);
}

ordered_json event_json(const store::StoredEvent& e) {
  return {{"seq", e.seq},
          {"type", e.type},
          {"actor", e.actor},
          {"device", e.device},
          {"device_seq", e.device_seq},
          {"key", e.key},
          {"accepted_at", e.accepted_at},
          {"prev", store::to_hex(e.prev)},
          {"hash", store::to_hex(e.hash)},
          {"payload", e.payload}};
}

store::Hash decode_hash(const JsonReader& at) {
  const auto hash = store::hash_from_hex(at.text(64));
  if (!hash) at.refuse("64 hexadecimal digits");
  return *hash;
}

std::uint64_t decode_count(const JsonReader& at) {
  return static_cast<std::uint64_t>(at.integer(0, std::numeric_limits<std::int64_t>::max()));
}

store::StoredEvent decode_event(const JsonReader& at, const std::string& stream) {
  at.allow_only(
      {"seq", "type", "actor", "device", "device_seq", "key", "accepted_at", "prev", "hash", "payload"});
  store::StoredEvent e;
  e.stream = stream;
  e.seq = decode_count(at.required("seq"));
  e.type = at.required("type").text(store::event_text_bytes_max);
  e.actor = at.required("actor").text(store::event_text_bytes_max);
  e.device = at.required("device").text(store::event_text_bytes_max);
  e.device_seq = decode_count(at.required("device_seq"));
  e.key = at.required("key").text(store::event_key_bytes_max);
  e.accepted_at = at.required("accepted_at").text(32);
  e.prev = decode_hash(at.required("prev"));
  e.hash = decode_hash(at.required("hash"));
  e.payload = at.required("payload").text(store::event_payload_bytes_max);
  return e;
}

// A file that is no JSON any more: which event the damage stands at, by the line it is in.
[[noreturn]] void refuse_damaged(std::string_view bytes, const BadInput& why) {
  const std::string& place = why.what_was_wrong().place;
  const std::size_t digits = place.find_first_of("0123456789");
  const std::size_t offset = digits == std::string::npos
                                 ? bytes.size()
                                 : std::min<std::size_t>(bytes.size(), std::stoull(place.substr(digits)));
  constexpr std::string_view mark = "\n  {\"seq\":";
  std::size_t events = 0;
  for (std::size_t at = bytes.find(mark); at < offset; at = bytes.find(mark, at + 1))
    ++events;
  if (events == 0) throw why.at("before event 1");
  throw why.at(fmt::format("event {}", events));
}

}  // namespace

void seal(Record& record, const SigningKey& shop_key) {
  record.sealed_count = record.events.size();
  record.sealed_head = record.events.empty() ? store::to_hex({}) : store::to_hex(record.events.back().hash);
  record.seal = shop_key.sign(sealed_bytes(record));
}

std::string encode_record(const Record& r) {
  const auto text = [](const std::string& value) { return ordered_json(value).dump(); };
  std::string out = "{\n \"format\": \"pumpwright-record\",\n";
  out += fmt::format(" \"version\": {},\n \"stream\": {},\n \"shop\": {},\n \"exported_at\": {},\n",
                     record_version, text(r.stream), text(r.shop), text(r.exported_at));
  out += fmt::format(" \"count\": {},\n \"head\": {},\n \"seal\": {},\n \"events\": [", r.sealed_count,
                     text(r.sealed_head), text(r.seal));
  const char* between = "\n  ";
  for (const auto& event : r.events) {
    out += between + event_json(event).dump();
    between = ",\n  ";
  }
  return out + "\n ]\n}\n";
}

bool looks_like_record(std::string_view bytes) {
  return bytes.substr(0, 256).find("\"pumpwright-record\"") != std::string_view::npos;
}

Record decode_record(std::string_view bytes) {
  const JsonReader root = [&] {
    try {
      return JsonReader::parse(bytes, record_bounds);
    } catch (const BadInput& e) {
      refuse_damaged(bytes, e);
    }
  }();
  const JsonReader format = root.required("format");
  if (format.text(64) != "pumpwright-record") format.refuse("\"pumpwright-record\"");
  root.required("version").integer(record_version, record_version);
  root.allow_only({"format", "version", "stream", "shop", "exported_at", "count", "head", "seal", "events"});
  Record r;
  r.stream = root.required("stream").text(store::event_text_bytes_max);
  if (number_of(r.stream).empty()) root.required("stream").refuse("\"job/\" and a job number");
  r.shop = root.required("shop").text(128);
  r.exported_at = root.required("exported_at").text(32);
  r.sealed_count = decode_count(root.required("count"));
  r.sealed_head = store::to_hex(decode_hash(root.required("head")));
  r.seal = root.required("seal").text(128);
  for (const auto& at : root.required("events").items())
    r.events.push_back(decode_event(at, r.stream));
  return r;
}

job::JobLog job_in(const Record& record) {
  job::JobLog log;
  for (std::size_t i = 0; i < record.events.size(); ++i) {
    const auto& e = record.events[i];
    try {
      log.apply({e.seq, e.type, e.actor, e.accepted_at, e.payload});
    } catch (const BadInput& why) {
      throw why.at(fmt::format("/events/{}", i));
    }
  }
  if (!log.opened())
    throw BadInput({.field = "events",
                    .place = "/events",
                    .value = "",
                    .expected = "a job that was opened and has its plan"});
  return log;
}

namespace {

void check_chain(const Record& record, RecordProof& proof) {
  store::ChainCheck chain(record.stream);
  for (const auto& event : record.events)
    if (const auto broken = chain.next(event)) {
      proof.faults.push_back(
          {event.seq, fmt::format("event {} ({}): {}", event.seq, event.type, store::text_of(broken->what))});
      return;
    }
}

void check_release(const Record& record, const store::StoredEvent& event, const std::string& trusted_key,
                   RecordProof& proof) {
  const auto fault = [&](const std::string& what) {
    proof.faults.push_back({event.seq, fmt::format("event {} (signed): {}", event.seq, what)});
  };
  Release release;
  try {
    release = decode_release(event.payload, record.stream);
  } catch (const BadInput& e) {
    return fault(e.what());
  }
  if (!is_certified(trusted_key, release.person))
    return fault(release.person.id + " is not vouched for by the trusted shop key");
  if (!is_signed(release)) return fault("the signature of " + release.person.id + " does not hold");
  if (release.person.id != event.actor)
    return fault("signed by another person than the one who handed it in");
  if (!may(release.person.role, Act::answer_for)) return fault(release.person.id + " may not release a pump");
  if (release.seq + 1 != event.seq || release.head != store::to_hex(event.prev))
    return fault("the signature is not over the events before it");
  proof.signatures.push_back({event.seq, release.person.id, release.person.name,
                              std::string(word_of(release.person.role)), release.time, release.statement});
}

void check_seal(const Record& record, const std::string& trusted_key, RecordProof& proof) {
  if (!signature_holds(trusted_key, sealed_bytes(record), record.seal))
    proof.faults.push_back({0, "the seal is not that of the trusted shop key"});
  else if (record.sealed_count != record.events.size() || record.sealed_head != proof.head)
    proof.faults.push_back({0, fmt::format("the seal covers {} events, the record holds {}",
                                           record.sealed_count, record.events.size())});
}

}  // namespace

RecordProof prove(const Record& record, const std::string& trusted_key,
                  const std::optional<std::string>& head) {
  RecordProof proof;
  proof.events = record.events.size();
  proof.head = store::to_hex(record.events.empty() ? store::Hash{} : record.events.back().hash);
  check_chain(record, proof);
  for (const auto& event : record.events)
    if (event.type == "signed") check_release(record, event, trusted_key, proof);
  check_seal(record, trusted_key, proof);
  if (head && *head != proof.head)
    proof.faults.push_back(
        {0, "the last event is not the one with the hash that was named: events are missing or added"});
  return proof;
}

}  // namespace pumpwright::shop
