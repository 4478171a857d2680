// The headers that tell a browser what a page of ours may do: nothing but what it needs.
#pragma once

#include "server/http_response.h"

namespace pumpwright::server {

struct HeaderNeeds {
  bool api = false;     // data: never kept by a cache
  bool secure = false;  // over TLS
};

// Adds what every answer carries. A header the response sets by itself is left as it is.
void add_security_headers(HttpResponse& response, const HeaderNeeds& needs);

}  // namespace pumpwright::server
