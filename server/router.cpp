#include "server/router.h"

#include <algorithm>
#include <cassert>

namespace pumpwright::server {
namespace {

// Matches one segment against "word", "{name}" or "{name}.svg"; a name never stands for nothing.
bool segment_matches(std::string_view pattern, const std::string& segment,
                     std::map<std::string, std::string>& path) {
  if (pattern.empty() || pattern.front() != '{') return pattern == segment;
  const auto end = pattern.find('}');
  assert(end != std::string_view::npos);
  const auto suffix = pattern.substr(end + 1);
  if (segment.size() <= suffix.size() || !std::string_view(segment).ends_with(suffix)) return false;
  path[std::string(pattern.substr(1, end - 1))] = segment.substr(0, segment.size() - suffix.size());
  return true;
}

bool pattern_matches(std::string_view pattern, const Target& target,
                     std::map<std::string, std::string>& path) {
  std::size_t at = 0;
  for (const auto& segment : target.segments) {
    if (at >= pattern.size()) return false;
    const auto end = pattern.find('/', at + 1);
    const auto part = pattern.substr(at + 1, end == std::string_view::npos ? end : end - at - 1);
    if (!segment_matches(part, segment, path)) return false;
    at = end == std::string_view::npos ? pattern.size() : end;
  }
  return at == pattern.size() && !target.segments.empty();
}

}  // namespace

bool Allowed::includes(shop::Role role) const {
  switch (role) {
    case shop::Role::technician:
      return technician;
    case shop::Role::lead_hand:
      return lead_hand;
    case shop::Role::office:
      return office;
    case shop::Role::read_only:
      return read_only;
  }
  return false;
}

Router::Router(std::vector<Route> routes) : routes_(std::move(routes)) {
  for (std::size_t i = 0; i < routes_.size(); ++i)
    for (std::size_t k = 0; k < i; ++k)
      assert(routes_[i].method != routes_[k].method || routes_[i].pattern != routes_[k].pattern);
}

RouteMatch Router::match(std::string_view method, const Target& target) const {
  const auto wanted = method == "HEAD" ? std::string_view("GET") : method;
  RouteMatch found;
  for (const auto& route : routes_) {
    std::map<std::string, std::string> path;
    if (!pattern_matches(route.pattern, target, path)) continue;
    if (route.method == wanted) {
      found.route = &route;
      found.path = std::move(path);
      found.other_methods.clear();
      return found;
    }
    found.other_methods.append(found.other_methods.empty() ? "" : ", ").append(route.method);
  }
  return found;
}

}  // namespace pumpwright::server
