// Signing in and out. All answers for a wrong name, a wrong password and a person who left are the same and
// take the same time.
#include <nlohmann/json.hpp>

#include "server/endpoints.h"
#include "server/json_body.h"
#include "server/problem.h"
#include "server/random_token.h"
#include "server/session_answer.h"
#include "server/set_cookie.h"

namespace pumpwright::server {
namespace {

Attempt attempt_of(const Parts& parts, const Call& call, const std::string& person) {
  return {.person = person,
          .device = enrolled_device(parts, call.request).value_or(""),
          .address = call.request.peer};
}

void count_attempt(Parts& parts, const Attempt& attempt) {
  if (const auto wait_s = parts.throttle.begin(attempt)) throw too_many(*wait_s);
}

// A new session with a new cookie; the one the browser had before ends.
HttpResponse signed_in(Parts& parts, const Call& call, const shop::Person& person) {
  if (call.session != nullptr) {
    parts.sessions.end(call.session->id);
    parts.changes.end_session(call.session->id);
  }
  const auto cookie = parts.sessions.begin(person.id);
  auto response =
      json_answer(200, session_json(parts, call.request, {.person = &person, .token_of = cookie}));
  set_cookie(response, {.name = session_cookie,
                        .value = cookie,
                        .seconds = SessionRules{}.whole_ms / 1000,
                        .secure = call.request.secure});
  response.person = person.id;
  return response;
}

HttpResponse get_session(Parts& parts, const Call& call) {
  if (call.person != nullptr) {
    const auto own = cookie(call.request, session_cookie).value_or("");
    return json_answer(200, session_json(parts, call.request, {.person = call.person, .token_of = own}));
  }
  const auto sent = cookie(call.request, visit_cookie);
  const bool known = sent && sent->size() == 64;
  const std::string visit = known ? std::string(*sent) : random_token();
  auto response = json_answer(200, session_json(parts, call.request, {.person = nullptr, .token_of = visit}));
  if (!known)
    set_cookie(response,
               {.name = visit_cookie, .value = visit, .seconds = {}, .secure = call.request.secure});
  if (cookie(call.request, session_cookie))
    set_cookie(response, {.name = session_cookie, .value = "", .seconds = 0, .secure = call.request.secure});
  return response;
}

std::optional<shop::Person> with_pin(Parts& parts, const Attempt& attempt, const std::string& pin) {
  if (attempt.device.empty() || !parts.throttle.begin_pin(attempt)) {
    auto what = not_signed_in().what_it_is();
    what.text = {.en = "This device needs your password now.",
                 .es = "Este dispositivo necesita ahora su contraseña."};
    what.field = "pin";
    throw Problem(what);
  }
  return parts.shop.check_pin(attempt.person, attempt.device, pin);
}

HttpResponse sign_in(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"id", "password", "pin"});
  const auto attempt = attempt_of(parts, call, body.required("id").text(128));
  const auto pin = body.optional("pin");
  const auto secret = pin ? pin->text(64) : body.required("password").text(shop::password_bytes_max);
  count_attempt(parts, attempt);
  const auto person =
      pin ? with_pin(parts, attempt, secret) : parts.shop.check_password(attempt.person, secret);
  if (!person) throw wrong_sign_in();
  parts.throttle.succeeded(attempt);
  if (!attempt.device.empty()) parts.throttle.forgive_pin(attempt);
  return signed_in(parts, call, *person);
}

HttpResponse sign_out(Parts& parts, const Call& call) {
  parts.sessions.end(call.session->id);
  parts.changes.end_session(call.session->id);
  HttpResponse response;
  response.status = 204;
  set_cookie(response, {.name = session_cookie, .value = "", .seconds = 0, .secure = call.request.secure});
  return response;
}

HttpResponse make_first_person(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"code", "id", "initials", "name", "password"});
  if (!parts.first_start.open())
    throw Problem({.status = 409,
                   .code = "conflict",
                   .text = {.en = "The shop has people already.", .es = "El taller ya tiene personas."},
                   .field = {},
                   .value = {},
                   .valid = {},
                   .retry_after_s = {}});
  const auto attempt = attempt_of(parts, call, "first person");
  count_attempt(parts, attempt);
  if (!parts.first_start.matches(body.required("code").text(64))) throw wrong_sign_in();
  parts.throttle.succeeded(attempt);
  const auto person = parts.shop.add_first_person(new_person_in(body, random_token()), "server");
  parts.first_start.used();
  return signed_in(parts, call, person);
}

// The password is asked for again, so that a tablet left lying about gives nobody a PIN or a password of his
// own.
template <class Change>
HttpResponse with_own_password(Parts& parts, const Call& call, const Change& change) {
  const auto attempt = attempt_of(parts, call, call.person->id);
  count_attempt(parts, attempt);
  change();
  parts.throttle.succeeded(attempt);
  HttpResponse response;
  response.status = 204;
  return response;
}

HttpResponse set_pin(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"password", "pin"});
  const auto password = body.required("password").text(shop::password_bytes_max);
  const auto pin = body.required("pin").text(64);
  shop::want_pin(pin);
  const auto device = enrolled_device(parts, call.request);
  if (!device)
    throw Problem(
        {.status = 409,
         .code = "conflict",
         .text =
             {.en = "A PIN works on an enrolled device only: let the lead hand enrol this one.",
              .es =
                  "El PIN solo funciona en un dispositivo registrado: pida al encargado que registre este."},
         .field = "pin",
         .value = {},
         .valid = {},
         .retry_after_s = {}});
  auto response =
      with_own_password(parts, call, [&] { parts.shop.set_pin(*call.person, *device, password, pin); });
  parts.throttle.forgive_pin(attempt_of(parts, call, call.person->id));
  return response;
}

HttpResponse set_password(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"password", "new_password"});
  const auto password = body.required("password").text(shop::password_bytes_max);
  const auto new_password = body.required("new_password").text(shop::password_bytes_max);
  shop::want_password(new_password);
  return with_own_password(parts, call, [&] {
    parts.shop.set_password(*call.person, password, new_password);
    for (const auto& ended : parts.sessions.end_all_of(call.person->id, call.session->id))
      parts.changes.end_session(ended);
  });
}

}  // namespace

std::vector<Route> session_routes(Parts& parts) {
  const auto row = [&parts](auto function) {
    return [&parts, function](const Call& call) { return function(parts, call); };
  };
  const auto json = [](std::string_view method, std::string_view pattern, Allowed allowed, Handler handler) {
    return Route{.method = method,
                 .pattern = pattern,
                 .allowed = allowed,
                 .content = Content::json,
                 .body_bytes_max = std::size_t{16} * 1024,
                 .runs = Runs::in_slow_worker,
                 .handler = std::move(handler)};
  };
  std::vector<Route> routes;
  routes.push_back({.method = "GET",
                    .pattern = "/api/session",
                    .allowed = allow::anyone,
                    .runs = Runs::at_once,
                    .handler = row(get_session)});
  routes.push_back(json("POST", "/api/session", allow::anyone, row(sign_in)));
  routes.push_back(
      {.method = "DELETE", .pattern = "/api/session", .allowed = allow::signed_in, .handler = row(sign_out)});
  routes.push_back(json("POST", "/api/first-person", allow::anyone, row(make_first_person)));
  routes.push_back(json("POST", "/api/session/pin", allow::signed_in, row(set_pin)));
  routes.push_back(json("POST", "/api/session/password", allow::signed_in, row(set_password)));
  // The request token stands beside names that people chose.
  for (auto& route : routes)
    route.holds_secret = true;
  return routes;
}

}  // namespace pumpwright::server
