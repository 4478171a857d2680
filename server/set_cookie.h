// The cookies the server sets: HttpOnly, SameSite=Strict, for all of our own paths, Secure under TLS.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "server/http_response.h"

namespace pumpwright::server {

inline constexpr std::string_view session_cookie = "pumpwright_session";
inline constexpr std::string_view device_cookie = "pumpwright_device";
inline constexpr std::string_view visit_cookie =
    "pumpwright_visit";  // before signing in; binds the request token

struct CookieToSet {
  std::string_view name;
  std::string_view value;
  std::optional<std::int64_t> seconds;  // nothing: until the browser closes; 0: forget it now
  bool secure = false;
};

void set_cookie(HttpResponse& response, const CookieToSet& cookie);

}  // namespace pumpwright::server
