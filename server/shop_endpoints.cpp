// The shop itself: people, devices, instruments, limits, texts.
#include <nlohmann/json.hpp>

#include "server/endpoints.h"
#include "server/json_body.h"
#include "server/problem.h"
#include "server/random_token.h"
#include "server/session_answer.h"
#include "server/set_cookie.h"
#include "server/shop_view.h"

namespace pumpwright::server {
namespace {

constexpr std::int64_t device_cookie_s = std::int64_t{400} * 24 * 3600;  // the longest a browser keeps one

HttpResponse get_shop(Parts& parts, const Call& /*call*/) {
  return json_answer(200, shop_view(*parts.shop.state(), parts.shop.held_back_by_limits(), parts.now_ms()));
}

HttpResponse hand_in(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"device", "events"});
  std::vector<shop::HandedIn> events;
  for (const auto& event : body.required("events").items(events_per_request_max))
    events.push_back(event_in(event));
  return json_answer(200, receipt_json(parts.shop.hand_in_to_shop(hand_of(call, body), events)));
}

HttpResponse add_person(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"key", "device", "device_seq", "id", "initials", "name", "role", "password"});
  body.required("role");
  auto wanted = new_person_in(body, {});
  wanted.envelope = envelope_in(body);
  const auto receipt = parts.shop.add_person(hand_of(call, body), wanted);
  return json_answer(201, receipt_json(all_accepted(receipt)));
}

HttpResponse enrol_device(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"key", "device", "device_seq", "name"});
  const auto id = "device-" + random_token().substr(0, 12);
  auto event = envelope_in(body);
  event.type = "device-enrolled";
  event.payload = nlohmann::json{{"id", id}, {"name", body.required("name").text(80)}}.dump();
  const auto receipt = parts.shop.hand_in_to_shop(hand_of(call, body), std::span(&event, 1));
  auto answer = receipt_json(all_accepted(receipt));
  answer["id"] = id;
  auto response = json_answer(201, answer);
  set_cookie(response, {.name = device_cookie,
                        .value = parts.devices.enrol(id),
                        .seconds = device_cookie_s,
                        .secure = call.request.secure});
  return response;
}

}  // namespace

std::vector<Route> shop_routes(Parts& parts) {
  const auto row = [&parts](auto function) {
    return [&parts, function](const Call& call) { return function(parts, call); };
  };
  const auto post = [](std::string_view pattern, Runs runs, Handler handler) {
    return Route{.method = "POST",
                 .pattern = pattern,
                 .allowed = allow::lead_hand,
                 .content = Content::json,
                 .body_bytes_max = json_body_bytes_max,
                 .runs = runs,
                 .handler = std::move(handler)};
  };
  std::vector<Route> routes;
  routes.push_back(
      {.method = "GET", .pattern = "/api/shop", .allowed = allow::signed_in, .handler = row(get_shop)});
  routes.push_back(post("/api/shop/events", Runs::in_worker, row(hand_in)));
  routes.push_back(post("/api/shop/people", Runs::in_slow_worker, row(add_person)));
  routes.push_back(post("/api/shop/devices", Runs::in_worker, row(enrol_device)));
  return routes;
}

}  // namespace pumpwright::server
