// The table of everything the server answers: one row a request. The same rows are compared with the
// published description (server/openapi.json) by a test, so neither can drift from the other.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "server/http_request.h"
#include "server/http_response.h"
#include "server/target.h"
#include "shop/person.h"

namespace pumpwright::server {

struct Session;

// Who may ask: any subset of the roles, or everyone including those who are not signed in.
struct Allowed {
  bool anyone = false;
  bool technician = false;
  bool lead_hand = false;
  bool office = false;
  bool read_only = false;

  bool includes(shop::Role role) const;
};

namespace allow {
inline constexpr Allowed anyone{.anyone = true};
inline constexpr Allowed signed_in{.technician = true, .lead_hand = true, .office = true, .read_only = true};
inline constexpr Allowed job_openers{.technician = true, .lead_hand = true, .office = true};
inline constexpr Allowed bench_hands{.technician = true, .lead_hand = true};
inline constexpr Allowed lead_hand{.lead_hand = true};
}  // namespace allow

// What a body may be.
enum class Content { none, json, attachment };

// Where the work is done. The threads that move bytes do only what is in memory; what touches the store waits
// in a bounded queue for a worker; what takes a processor for long (passwords, documents) has few workers of
// its own, so that it never stands in the way of a reading.
enum class Runs { at_once, in_worker, in_slow_worker };

// A request on its way into a handler: all checks that hold for every request have passed.
struct Call {
  const HttpRequest& request;
  const Target& target;
  std::map<std::string, std::string> path;  // values of the pattern's {names}
  const shop::Person* person = nullptr;     // signed in; null on a row open to anyone
  const Session* session = nullptr;         // likewise

  const std::string& in_path(const std::string& name) const { return path.at(name); }
};

using Handler = std::function<HttpResponse(const Call&)>;

struct Route {
  std::string_view method;
  std::string_view pattern;  // "/api/jobs/{number}/drawings/{name}.svg"
  Allowed allowed;
  Content content = Content::none;
  std::size_t body_bytes_max = 0;
  Runs runs = Runs::in_worker;
  Handler handler;
  bool holds_secret = false;  // the answer must not be compressed (server/content_coding.h says why)
};

struct RouteMatch {
  const Route* route = nullptr;
  std::map<std::string, std::string> path;
  std::string other_methods;  // "GET, POST": the path is known, the method is not
};

class Router {
 public:
  // Two rows may not have the same method and pattern (asserted).
  explicit Router(std::vector<Route> routes);

  // HEAD is answered by the row of GET.
  RouteMatch match(std::string_view method, const Target& target) const;
  std::span<const Route> routes() const { return routes_; }

 private:
  std::vector<Route> routes_;
};

}  // namespace pumpwright::server
