// One line a request for whoever runs the server: when, from where, who, what, with what result. Never a
// body, a query, a cookie or a token.
#pragma once

#include <cstdint>
#include <iosfwd>
#include <mutex>
#include <string>

#include "server/transport.h"

namespace pumpwright::server {

// "2026-11-25T13:45:00.123Z 127.0.0.1 J.M. GET /api/jobs 200 1234 B 5.2 ms". Control characters become '?'.
std::string request_line(const RequestRecord& record, std::int64_t now_ms);

class Log {
 public:
  Log(std::ostream& out, bool quiet) : out_(out), quiet_(quiet) {}

  void request(const RequestRecord& record, std::int64_t now_ms);  // nothing when quiet
  void say(const std::string& line);                               // always

 private:
  std::ostream& out_;
  bool quiet_;
  std::mutex mutex_;
};

}  // namespace pumpwright::server
