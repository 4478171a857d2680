#include "server/set_cookie.h"

#include <fmt/format.h>

namespace pumpwright::server {

void set_cookie(HttpResponse& response, const CookieToSet& cookie) {
  auto text = fmt::format("{}={}; Path=/; HttpOnly; SameSite=Strict", cookie.name, cookie.value);
  if (cookie.secure) text += "; Secure";
  if (cookie.seconds) text += fmt::format("; Max-Age={}", *cookie.seconds);
  response.set("Set-Cookie", std::move(text));
}

}  // namespace pumpwright::server
