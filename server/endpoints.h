// What the endpoints stand on, and the rows of the table they give, a file for each family.
#pragma once

#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "server/change_hub.h"
#include "server/device_cookies.h"
#include "server/first_start.h"
#include "server/router.h"
#include "server/sessions.h"
#include "server/sign_in_throttle.h"
#include "shop/shop.h"
#include "store/store.h"

namespace pumpwright::server {

struct Parts {
  store::Store& store;
  shop::Shop& shop;
  Sessions& sessions;
  DeviceCookies& devices;
  SignInThrottle& throttle;
  ChangeHub& changes;
  FirstStart& first_start;
  std::function<std::int64_t()> now_ms;
  std::string token_key;         // 64 hexadecimal digits; request tokens are derived under it
  std::string version;           // "0.1.0"
  std::string shop_certificate;  // PEM; empty without TLS
  std::uint64_t photo_room_bytes = std::numeric_limits<std::uint64_t>::max();  // for all attachments together
};

inline constexpr std::uint64_t bytes_per_mib = std::uint64_t{1} << 20U;
inline constexpr std::size_t json_body_bytes_max = std::size_t{1024} * 1024;
inline constexpr std::size_t attachment_body_bytes_max = std::size_t{12} * 1024 * 1024;

std::vector<Route> general_routes(Parts& parts);  // health, description, certificate
std::vector<Route> session_routes(Parts& parts);  // signing in and out, passwords, the first person
std::vector<Route> job_routes(Parts& parts);      // lists, search, one job, what happens to it
std::vector<Route> file_routes(Parts& parts);     // attachments, record, tag, drawings
std::vector<Route> shop_routes(Parts& parts);     // people, devices, the shop's own data
std::vector<Route> history_routes(Parts& parts);  // what came back, and records older than this program
std::vector<Route> change_routes(Parts& parts);   // event streams
std::vector<Route> all_routes(Parts& parts);

// The enrolled device a request comes from; nothing when it carries no cookie of a device the shop still has.
std::optional<std::string> enrolled_device(const Parts& parts, const HttpRequest& request);

}  // namespace pumpwright::server
