// The signature under a pump: who releases it, what he states, and over which events.
#pragma once

#include <cstdint>
#include <string>

#include "shop/person.h"
#include "shop/signing_key.h"

namespace pumpwright::shop {

struct Release {
  std::string stream;
  std::uint64_t seq = 0;  // of the last event that is signed
  std::string head;       // its hash, hexadecimal
  std::string statement;
  std::string time;  // UTC, ISO 8601
  Person person;     // as the shop vouches for him
  std::string signature;
};

// Fills `signature`.
void sign(Release& release, const SigningKey& key);
// Whether the person's key signed just this. Says nothing of whether the shop vouches for the person.
bool is_signed(const Release& release);

// The payload of a `signed` event, and back. `stream` is not in the payload: it is that of the event.
// Throws BadInput.
std::string encode_release(const Release& release);
Release decode_release(const std::string& payload, const std::string& stream);

}  // namespace pumpwright::shop
