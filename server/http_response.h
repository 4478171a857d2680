// An answer as plain data; the transport writes it. Content-Length, Connection and Date are the transport's.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "server/http_request.h"

namespace pumpwright::server {

class EventChannel;

struct HttpResponse {
  int status = 200;
  std::vector<HeaderField> headers;
  std::string body;
  // Bytes that live as long as the program (the embedded page), sent instead of `body` when not empty.
  std::string_view embedded;
  // An event stream: the answer's body is what comes out of the channel until it closes. `body` is empty.
  std::shared_ptr<EventChannel> stream;
  // Who asked, for the log; empty when nobody was signed in.
  std::string person;

  std::string_view content() const { return embedded.empty() ? std::string_view(body) : embedded; }
  void set(std::string name, std::string value) { headers.push_back({std::move(name), std::move(value)}); }
};

}  // namespace pumpwright::server
