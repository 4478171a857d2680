#include "server/json_body.h"

#include <cstdint>
#include <exception>
#include <new>

#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "server/problem.h"
#include "store/store_error.h"

namespace pumpwright::server {
namespace {

constexpr std::int64_t device_seq_max = std::int64_t{1} << 53;  // what a page counts exactly

std::string short_text(const job::JsonReader& json, std::size_t bytes_max) {
  auto text = json.text(bytes_max);
  if (text.empty()) json.refuse("a text that is not empty");
  return text;
}

void rethrow_when_the_store_failed(const std::exception_ptr& why) {
  try {
    std::rethrow_exception(why);
  } catch (const store::StoreError&) {
    throw;
  } catch (const std::bad_alloc&) {
    throw;
  } catch (...) {
    return;  // the event's own fault: told beside it
  }
}

}  // namespace

job::JsonReader json_body(const Call& call, std::size_t bytes_max) {
  try {
    auto body = job::JsonReader::parse(call.request.body, {.bytes_max = bytes_max, .depth_max = 32});
    if (body.is_object()) return body;
  } catch (const BadInput&) {
    // Told below in both languages; the parser's own words are of no use at a bench.
  }
  throw bad_request({.en = "The body is not a JSON object.", .es = "El cuerpo no es un objeto JSON."});
}

shop::HandedIn envelope_in(const job::JsonReader& json) {
  return {.key = short_text(json.required("key"), store::event_key_bytes_max),
          .device_seq = static_cast<std::uint64_t>(json.required("device_seq").integer(0, device_seq_max)),
          .type = {},
          .payload = {}};
}

shop::HandedIn event_in(const job::JsonReader& json) {
  json.allow_only({"key", "device_seq", "type", "payload"});
  auto event = envelope_in(json);
  event.type = short_text(json.required("type"), 64);
  event.payload = json.required("payload").text(store::event_payload_bytes_max);
  return event;
}

shop::Hand hand_of(const Call& call, const job::JsonReader& body) {
  return {.person = *call.person, .device = short_text(body.required("device"), store::event_text_bytes_max)};
}

nlohmann::json receipt_json(const shop::Receipt& receipt) {
  for (const auto& one : receipt.refused)
    rethrow_when_the_store_failed(one.why);
  auto accepted = nlohmann::json::array();
  for (const auto& one : receipt.accepted)
    accepted.push_back({{"key", one.key}, {"seq", one.seq}, {"hash", one.hash}});
  auto refused = nlohmann::json::array();
  for (const auto& one : receipt.refused)
    refused.push_back({{"key", one.key}, {"error", error_json(problem_of(one.why))}});
  return {{"accepted", accepted}, {"refused", refused}, {"head", receipt.head}, {"seq", receipt.seq}};
}

const shop::Receipt& all_accepted(const shop::Receipt& receipt) {
  if (!receipt.refused.empty()) std::rethrow_exception(receipt.refused.front().why);
  return receipt;
}

}  // namespace pumpwright::server
