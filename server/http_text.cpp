#include "server/http_text.h"

#include <algorithm>
#include <array>
#include <ctime>
#include <utility>

#include <fmt/format.h>

namespace pumpwright::server {

std::string_view reason_phrase(int status) {
  static constexpr std::array<std::pair<int, std::string_view>, 22> phrases{
      {{200, "OK"},
       {201, "Created"},
       {204, "No Content"},
       {304, "Not Modified"},
       {400, "Bad Request"},
       {401, "Unauthorized"},
       {403, "Forbidden"},
       {404, "Not Found"},
       {405, "Method Not Allowed"},
       {406, "Not Acceptable"},
       {408, "Request Timeout"},
       {409, "Conflict"},
       {411, "Length Required"},
       {413, "Content Too Large"},
       {415, "Unsupported Media Type"},
       {421, "Misdirected Request"},
       {422, "Unprocessable Content"},
       {429, "Too Many Requests"},
       {431, "Request Header Fields Too Large"},
       {500, "Internal Server Error"},
       {503, "Service Unavailable"},
       {507, "Insufficient Storage"}}};
  const auto* found =
      std::find_if(phrases.begin(), phrases.end(), [&](const auto& entry) { return entry.first == status; });
  return found == phrases.end() ? "Unknown" : found->second;
}

std::string http_date(std::int64_t seconds_since_1970) {
  static constexpr std::array<const char*, 7> days{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  static constexpr std::array<const char*, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const std::time_t seconds{seconds_since_1970};
  std::tm t{};
  ::gmtime_r(&seconds, &t);
  return fmt::format("{}, {:02} {} {} {:02}:{:02}:{:02} GMT", days.at(static_cast<std::size_t>(t.tm_wday)),
                     t.tm_mday, months.at(static_cast<std::size_t>(t.tm_mon)), t.tm_year + 1900, t.tm_hour,
                     t.tm_min, t.tm_sec);
}

bool has_body(int status) {
  return status >= 200 && status != 204 && status != 304;
}

std::string response_head(const HttpResponse& response, bool keep_alive, std::int64_t now_s) {
  std::string head = fmt::format("HTTP/1.1 {} {}\r\nDate: {}\r\n", response.status,
                                 reason_phrase(response.status), http_date(now_s));
  for (const auto& field : response.headers) {
    std::string value = field.value;
    std::replace_if(
        value.begin(), value.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; }, ' ');
    head.append(field.name).append(": ").append(value).append("\r\n");
  }
  if (!response.stream && has_body(response.status))
    head += fmt::format("Content-Length: {}\r\n", response.content().size());
  head += keep_alive && !response.stream ? "Connection: keep-alive\r\n\r\n" : "Connection: close\r\n\r\n";
  return head;
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  std::transform(lower.begin(), lower.end(), lower.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return lower;
}

std::string_view without_spaces_around(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

}  // namespace pumpwright::server
