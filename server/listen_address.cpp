#include <algorithm>
#include <array>
#include <charconv>

#include <arpa/inet.h>

#include "engine/quantity/bad_input.h"
#include "server/server.h"

namespace pumpwright::server {
namespace {

[[noreturn]] void refuse(const std::string& text) {
  throw BadInput({.field = "--listen",
                  .place = "",
                  .value = text,
                  .expected = "address and port such as 127.0.0.1:8080, [::1]:8080 or 0.0.0.0:8443"});
}

bool is_address(const std::string& text) {
  std::array<unsigned char, 16> bytes{};
  return ::inet_pton(AF_INET, text.c_str(), bytes.data()) == 1 ||
         ::inet_pton(AF_INET6, text.c_str(), bytes.data()) == 1;
}

}  // namespace

ListenAddress parse_listen_address(const std::string& text) {
  ListenAddress listen;
  std::string port = text;
  if (const auto colon = text.rfind(':'); colon != std::string::npos) {
    auto address = text.substr(0, colon);
    port = text.substr(colon + 1);
    if (address.size() > 2 && address.front() == '[' && address.back() == ']')
      address = address.substr(1, address.size() - 2);
    else if (address.find(':') != std::string::npos)
      refuse(text);  // an IPv6 address without brackets: where would the port begin?
    if (address == "localhost") address = "127.0.0.1";
    if (!address.empty()) listen.address = address;
  }
  const auto [end, error] = std::from_chars(port.data(), port.data() + port.size(), listen.port);
  if (error != std::errc() || end != port.data() + port.size() || !is_address(listen.address)) refuse(text);
  return listen;
}

bool is_loopback(const std::string& address) {
  return address.starts_with("127.") || address == "::1";
}

}  // namespace pumpwright::server
