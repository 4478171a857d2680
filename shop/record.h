// The record of one job as a file that proves itself: every event with its bytes, the chain, the signatures,
// and the shop's seal over the whole. docs/record.md describes the format.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "job/job_log.h"
#include "shop/signing_key.h"
#include "store/event.h"

namespace pumpwright::shop {

inline constexpr int record_version = 1;

struct Record {
  std::string stream;  // "job/G-2117"
  std::string shop;    // the shop's name
  std::string exported_at;
  std::vector<store::StoredEvent> events;
  std::uint64_t sealed_count = 0;  // how many events the seal covers
  std::string sealed_head;         // hash of the last of them, hexadecimal
  std::string seal;                // the shop's signature over stream, count, head and time of export
};

// Puts the shop's seal under the record as it stands.
void seal(Record& record, const SigningKey& shop_key);

// One event a line, so that a damaged byte is near its event.
std::string encode_record(const Record& record);

// Throws BadInput; when the text is damaged the place names the event it stands at.
Record decode_record(std::string_view bytes);
bool looks_like_record(std::string_view bytes);

// The job in it, for judging. Throws BadInput (place: "/events/N").
job::JobLog job_in(const Record& record);

// --- proof

struct RecordFault {
  std::uint64_t seq = 0;  // of the event concerned; 0: the record as a whole
  std::string what;       // one sentence
};

struct ProvenSignature {
  std::uint64_t seq = 0;
  std::string person, name, role, time, statement;
};

struct RecordProof {
  std::uint64_t events = 0;
  std::string head;  // of the last event
  std::vector<ProvenSignature> signatures;
  std::vector<RecordFault> faults;
  bool holds() const { return faults.empty(); }
};

// Checks chain, seal and signatures against a shop's public key that was got on another way (keys inside the
// record prove nothing) and, when given, the hash that must come last (so that a shortened record shows).
RecordProof prove(const Record& record, const std::string& trusted_key,
                  const std::optional<std::string>& head);

}  // namespace pumpwright::shop
