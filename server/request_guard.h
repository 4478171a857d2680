// Which requests may be answered at all: sent to one of our own names (so that no foreign page reaches us by
// renaming itself to our address), from our own page, and with the token that only our own page can know.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "server/http_request.h"

namespace pumpwright::server {

// A name in the form in which hosts are compared: lower case, no brackets, no dot at the end.
std::string host_as_compared(std::string_view name);
// The host of a Host header or of an origin's authority, without port; nothing when it is none.
std::optional<std::string> host_of(std::string_view authority);

class HostNames {
 public:
  // Loopback names are always ours.
  explicit HostNames(const std::vector<std::string>& names);

  // `local` is the address the connection came in on: named as an address, it is ours too.
  bool ours(std::string_view authority, std::string_view local) const;

 private:
  std::vector<std::string> names_;
};

// Headers that decide about safety and came more than once, or no Host at all.
bool has_doubtful_headers(const HttpRequest& request);

// True when a request that changes something comes from our own page: its Origin, when sent, is the very host
// it was sent to, and the browser does not call it cross-site.
bool from_our_own_page(const HttpRequest& request);

bool changes_something(std::string_view method);  // anything but GET and HEAD

}  // namespace pumpwright::server
