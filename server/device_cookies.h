// Which browser is which enrolled device: a secret in a cookie, its hash in the store. A PIN is worth
// something only together with it.
#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

namespace pumpwright::store {
class Secrets;
}

namespace pumpwright::server {

class DeviceCookies {
 public:
  explicit DeviceCookies(store::Secrets& secrets);

  // Gives the cookie for a device; an older one of the same device ends.
  std::string enrol(const std::string& device);
  // The device's id; nothing for an unknown cookie. Memory only. Whether the shop still knows the device is
  // the caller's to ask.
  std::optional<std::string> find(std::string_view cookie) const;

 private:
  store::Secrets& secrets_;
  mutable std::mutex mutex_;
  std::map<std::string, std::string> device_by_hash_;
};

}  // namespace pumpwright::server
