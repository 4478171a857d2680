#include "server/request_log.h"

#include <algorithm>
#include <ostream>

#include <fmt/format.h>

#include "store/utc_text.h"

namespace pumpwright::server {
namespace {

std::string printable(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](unsigned char c) { return c <= 0x20 || c >= 0x7F; }, '?');
  return text.empty() ? "-" : text.substr(0, 300);
}

}  // namespace

std::string request_line(const RequestRecord& record, std::int64_t now_ms) {
  return fmt::format("{} {} {} {} {} {} {} B {:.1f} ms", store::utc_text(now_ms), printable(record.peer),
                     printable(record.person), printable(record.method),
                     printable(record.target.substr(0, record.target.find('?'))), record.status, record.bytes,
                     static_cast<double>(record.took.count()) / 1000);
}

void Log::request(const RequestRecord& record, std::int64_t now_ms) {
  if (!quiet_) say(request_line(record, now_ms));
}

void Log::say(const std::string& line) {
  const std::lock_guard lock(mutex_);
  out_ << line << '\n' << std::flush;
}

}  // namespace pumpwright::server
