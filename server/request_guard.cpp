#include "server/request_guard.h"

#include <algorithm>
#include <array>

#include "server/http_text.h"

namespace pumpwright::server {
namespace {

bool is_port(std::string_view text) {
  return !text.empty() && text.size() <= 5 &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

std::string host_as_compared(std::string_view name) {
  auto host = lower_case(name);
  if (host.size() > 2 && host.front() == '[' && host.back() == ']') host = host.substr(1, host.size() - 2);
  if (!host.empty() && host.back() == '.') host.pop_back();
  return host;
}

std::optional<std::string> host_of(std::string_view authority) {
  if (authority.empty() || authority.find_first_of("@/\\ ,") != std::string_view::npos) return std::nullopt;
  const bool bracketed = authority.front() == '[';
  const auto host_end = bracketed ? authority.find(']') : authority.find(':');
  if (bracketed && host_end == std::string_view::npos) return std::nullopt;
  const auto host = authority.substr(0, bracketed ? host_end + 1 : host_end);
  const auto rest = authority.substr(host.size());
  if (!rest.empty() && (rest.front() != ':' || !is_port(rest.substr(1)))) return std::nullopt;
  auto compared = host_as_compared(host);
  if (compared.empty()) return std::nullopt;
  return compared;
}

HostNames::HostNames(const std::vector<std::string>& names) : names_{"localhost", "127.0.0.1", "::1"} {
  for (const auto& name : names)
    names_.push_back(host_as_compared(name));
}

bool HostNames::ours(std::string_view authority, std::string_view local) const {
  const auto host = host_of(authority);
  if (!host) return false;
  return *host == host_as_compared(local) || std::find(names_.begin(), names_.end(), *host) != names_.end();
}

bool has_doubtful_headers(const HttpRequest& request) {
  static constexpr std::array<std::string_view, 8> single{
      "host",          "origin",         "cookie",        "content-type",
      "last-event-id", "sec-fetch-site", "authorization", "x-pumpwright-token"};
  const bool doubled = std::any_of(single.begin(), single.end(), [&](std::string_view name) {
    return std::count_if(request.headers.begin(), request.headers.end(),
                         [&](const auto& field) { return field.name == name; }) > 1;
  });
  return doubled || !request.header("host");
}

bool from_our_own_page(const HttpRequest& request) {
  const auto site = request.header("sec-fetch-site");
  if (site && *site != "same-origin" && *site != "none") return false;
  const auto origin = request.header("origin");
  if (!origin) return true;
  const std::string own =
      (request.secure ? "https://" : "http://") + lower_case(request.header("host").value_or(""));
  return lower_case(*origin) == own;
}

bool changes_something(std::string_view method) {
  return method != "GET" && method != "HEAD";
}

}  // namespace pumpwright::server
