// The words and forms of HTTP that both the transport and the endpoints need.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "server/http_response.h"

namespace pumpwright::server {

std::string_view reason_phrase(int status);

// "Wed, 25 Nov 2026 13:45:00 GMT"
std::string http_date(std::int64_t seconds_since_1970);

// Status line and headers with the empty line. `keep_alive` says what the connection does afterwards. A
// control character in a header value becomes a space, so that no value can begin a header of its own.
std::string response_head(const HttpResponse& response, bool keep_alive, std::int64_t now_s);

bool has_body(int status);  // false for 1xx, 204 and 304

std::string lower_case(std::string_view text);  // ASCII
std::string_view without_spaces_around(std::string_view text);

}  // namespace pumpwright::server
