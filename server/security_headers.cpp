#include "server/security_headers.h"

#include <algorithm>

namespace pumpwright::server {
namespace {

void set_unless_there(HttpResponse& response, std::string_view name, std::string_view value) {
  const bool there = std::any_of(response.headers.begin(), response.headers.end(),
                                 [&](const auto& field) { return field.name == name; });
  if (!there) response.set(std::string(name), std::string(value));
}

bool is_json(const HttpResponse& response) {
  return std::any_of(response.headers.begin(), response.headers.end(), [](const auto& field) {
    return field.name == "Content-Type" && field.value.starts_with("application/json");
  });
}

}  // namespace

void add_security_headers(HttpResponse& response, const HeaderNeeds& needs) {
  set_unless_there(
      response, "Content-Security-Policy",
      "default-src 'self'; img-src 'self' blob: data:; connect-src 'self'; frame-ancestors 'none'; "
      "base-uri 'none'; form-action 'self'; object-src 'none'; worker-src 'self'");
  set_unless_there(response, "X-Content-Type-Options", "nosniff");
  set_unless_there(response, "Referrer-Policy", "no-referrer");
  set_unless_there(response, "Permissions-Policy", "camera=(self), serial=(self)");
  set_unless_there(response, "Cross-Origin-Opener-Policy", "same-origin");
  set_unless_there(response, "Cross-Origin-Resource-Policy", "same-origin");
  if (needs.api) {
    set_unless_there(response, "Cache-Control", "no-store");
    // Opened as a page of its own, data are a file to keep and never something to show.
    if (is_json(response))
      set_unless_there(response, "Content-Disposition", "attachment; filename=\"api.json\"");
  }
  if (needs.secure) set_unless_there(response, "Strict-Transport-Security", "max-age=31536000");
}

}  // namespace pumpwright::server
