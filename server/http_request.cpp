#include "server/http_request.h"

#include "server/http_text.h"

namespace pumpwright::server {

std::optional<std::string_view> cookie(const HttpRequest& request, std::string_view name) {
  const auto field = request.header("cookie");
  if (!field) return std::nullopt;
  std::string_view rest = *field;
  while (!rest.empty()) {
    const auto end = rest.find(';');
    const auto pair = without_spaces_around(rest.substr(0, end));
    const auto equals = pair.find('=');
    if (equals != std::string_view::npos && pair.substr(0, equals) == name) return pair.substr(equals + 1);
    rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
  }
  return std::nullopt;
}

}  // namespace pumpwright::server
