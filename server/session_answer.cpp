#include "server/session_answer.h"

#include <nlohmann/json.hpp>

#include "server/random_token.h"
#include "server/set_cookie.h"

namespace pumpwright::server {
namespace {

// Who works here is told to nobody but the devices a lead hand has enrolled.
nlohmann::json people_to_tap(const shop::ShopState& state) {
  auto people = nlohmann::json::array();
  for (const auto& [id, person] : state.people)
    if (person.active) people.push_back({{"id", id}, {"initials", id}, {"name", person.name}});
  return people;
}

}  // namespace

nlohmann::json session_json(const Parts& parts, const HttpRequest& request, const SignedIn& signed_in) {
  const auto state = parts.shop.state();
  nlohmann::json person;
  if (signed_in.person != nullptr)
    person = {{"id", signed_in.person->id},
              {"initials", signed_in.person->id},
              {"name", signed_in.person->name},
              {"role", std::string(shop::word_of(signed_in.person->role))}};
  nlohmann::json device;
  if (const auto id = enrolled_device(parts, request))
    device = {{"id", *id}, {"name", state->devices.at(*id).name}};
  nlohmann::json session{{"person", person},
                         {"token", derived_token(parts.token_key, signed_in.token_of)},
                         {"device", device},
                         {"shop", {{"name", state->name}, {"invented", state->invented}}},
                         {"first_start", parts.first_start.open()},
                         {"secure", request.secure},
                         {"version", parts.version}};
  if (signed_in.person == nullptr && !device.is_null()) session["people"] = people_to_tap(*state);
  return session;
}

bool has_token(const Parts& parts, const HttpRequest& request, const Session* session) {
  const auto token = request.header("x-pumpwright-token");
  if (!token) return false;
  const auto bound_to = [&](std::string_view name) {
    const auto sent = cookie(request, name);
    return sent && same_token(*token, derived_token(parts.token_key, *sent));
  };
  return bound_to(session_cookie) || (session == nullptr && bound_to(visit_cookie));
}

shop::NewPerson new_person_in(const job::JsonReader& body, const std::string& key) {
  shop::NewPerson wanted{.envelope = {.key = key, .device_seq = 0, .type = {}, .payload = {}},
                         .id = body.required("id").text(128),
                         .name = body.required("name").text(256),
                         .password = body.required("password").text(shop::password_bytes_max),
                         .role = shop::Role::lead_hand};
  if (const auto initials = body.optional("initials"); initials && initials->text(128) != wanted.id)
    initials->refuse("the same as the id, " + wanted.id);
  if (const auto role = body.optional("role"))
    wanted.role = *shop::role_from(role->word({"technician", "lead-hand", "office", "read-only"}));
  return wanted;
}

}  // namespace pumpwright::server
