#include "server/device_cookies.h"

#include <vector>

#include "server/random_token.h"
#include "store/secrets.h"

namespace pumpwright::server {
namespace {

const std::string kind = "device-cookie";

}  // namespace

DeviceCookies::DeviceCookies(store::Secrets& secrets) : secrets_(secrets) {
  for (const auto& secret : secrets_.list(kind))
    device_by_hash_.emplace(secret.id, secret.bytes);
}

std::string DeviceCookies::enrol(const std::string& device) {
  auto cookie = random_token();
  const auto hash = token_hash(cookie);
  secrets_.put(kind, {.id = hash, .bytes = device, .expires_at_ms = std::nullopt});
  std::vector<std::string> ended;
  {
    const std::lock_guard lock(mutex_);
    for (const auto& [older, whose] : device_by_hash_)
      if (whose == device) ended.push_back(older);
    for (const auto& older : ended)
      device_by_hash_.erase(older);
    device_by_hash_.emplace(hash, device);
  }
  for (const auto& older : ended)
    secrets_.erase(kind, older);
  return cookie;
}

std::optional<std::string> DeviceCookies::find(std::string_view cookie) const {
  if (cookie.size() != 64) return std::nullopt;
  const auto hash = token_hash(cookie);
  const std::lock_guard lock(mutex_);
  const auto found = device_by_hash_.find(hash);
  if (found == device_by_hash_.end()) return std::nullopt;
  return found->second;
}

}  // namespace pumpwright::server
