// Bodies of requests as strict JSON, and what several endpoints read out of them.
#pragma once

#include <string>
#include <vector>

#include "job/json_reader.h"
#include "server/endpoints.h"
#include "server/router.h"
#include "shop/shop.h"

namespace pumpwright::server {

inline constexpr std::size_t events_per_request_max = 200;

// The body as one JSON object. Throws Problem 400 when it is no JSON of at most so many bytes.
job::JsonReader json_body(const Call& call, std::size_t bytes_max = json_body_bytes_max);

// "key" and "device_seq"; an event has "type" and "payload" as well. Throws BadInput.
shop::HandedIn envelope_in(const job::JsonReader& json);
shop::HandedIn event_in(const job::JsonReader& json);

// Who is signed in, on the device that the body names.
shop::Hand hand_of(const Call& call, const job::JsonReader& body);

// {"accepted", "refused", "head", "seq"}. A store that fails says nothing about an event: then this throws
// what the store threw, so that the request as a whole has failed and the tablet hands it in again, under the
// same keys, instead of showing a person a refusal.
nlohmann::json receipt_json(const shop::Receipt& receipt);

// Lets what was refused stand for the whole answer, where a request carries just one event.
const shop::Receipt& all_accepted(const shop::Receipt& receipt);

}  // namespace pumpwright::server
