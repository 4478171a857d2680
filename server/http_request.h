// A request as plain data. The transport (server/transport.h) makes it from bytes; everything behind works on
// this and is tested without sockets.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pumpwright::server {

struct HeaderField {
  std::string name;  // lower case
  std::string value;
};

struct HttpRequest {
  std::string method;  // as sent: "GET"
  std::string target;  // as sent: "/api/jobs?x=1"
  std::vector<HeaderField> headers;
  std::string body;
  std::string peer;     // address of the other side, without port
  std::string local;    // address the connection came in on, without port
  bool secure = false;  // over TLS

  // The value of the header of that (lower-case) name; nothing when it is not there. A header that came twice
  // gives its first value: those that matter for safety are refused when doubled (server/request_guard.h).
  std::optional<std::string_view> header(std::string_view name) const {
    for (const auto& field : headers)
      if (field.name == name) return field.value;
    return std::nullopt;
  }
};

// The value of one cookie; nothing when it was not sent.
std::optional<std::string_view> cookie(const HttpRequest& request, std::string_view name);

}  // namespace pumpwright::server
