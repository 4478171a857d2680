// What the page learns about itself: who is signed in on it, its request token, its device, its shop.
#pragma once

#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "server/endpoints.h"
#include "server/json_body.h"

namespace pumpwright::server {

struct SignedIn {
  const shop::Person* person = nullptr;  // null: nobody
  std::string_view token_of;             // the cookie the request token is derived from
};

// "people" is there on an enrolled device on which nobody is signed in: whom a PIN may be entered for.
nlohmann::json session_json(const Parts& parts, const HttpRequest& request, const SignedIn& signed_in);

// Whether the X-Pumpwright-Token of a request belongs to its cookie: that of the session or, where nobody is
// signed in, of the visit. The cookie of a session that has ended still speaks for the page that holds it,
// which can so sign in again without being loaded anew.
bool has_token(const Parts& parts, const HttpRequest& request, const Session* session);

// "id", "name", "password", and "initials", which when given must be the id: it is what people sign with. The
// role is read where the body has one.
shop::NewPerson new_person_in(const job::JsonReader& body, const std::string& key);

}  // namespace pumpwright::server
