// Slows down whoever guesses passwords and PINs. Attempts are counted before they are tried, so that many at
// once gain nothing, and in the store, so that a restart forgives nothing.
//
// A person's count is kept apart for each enrolled device and for all other devices together: a stranger on
// the network can slow down himself but not the technician at the bench.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

namespace pumpwright::store {
class Secrets;
}

namespace pumpwright::server {

struct ThrottleRules {
  int free_per_person = 5;    // wrong attempts before any waiting
  int free_per_address = 20;  // a whole shop may stand behind one address
  std::int64_t wait_s_max = 900;
  std::int64_t forget_ms = std::int64_t{24} * 3600 * 1000;  // after the last attempt
  int pin_attempts = 5;                                     // wrong PINs until the device wants a password
};

struct Attempt {
  std::string person;   // as typed; may be nobody's
  std::string device;   // enrolled device; empty when it is none
  std::string address;  // of the other side
};

class SignInThrottle {
 public:
  SignInThrottle(store::Secrets& secrets, std::function<std::int64_t()> now_ms, ThrottleRules rules = {})
      : secrets_(secrets), now_ms_(std::move(now_ms)), rules_(rules) {}

  // Counts the attempt. Seconds to wait when it may not be tried now: 1, 2, 4 … up to wait_s_max.
  std::optional<std::int64_t> begin(const Attempt& attempt);
  void succeeded(const Attempt& attempt);

  // Whether a PIN may still be tried; counts it as wrong until forgive_pin, which a right PIN or password
  // calls.
  bool begin_pin(const Attempt& attempt);
  void forgive_pin(const Attempt& attempt);

 private:
  struct Bucket {
    std::string id;
    int free = 0;
  };
  Bucket person_bucket(const Attempt& attempt) const;
  Bucket address_bucket(const Attempt& attempt) const;
  std::optional<std::int64_t> count(const Bucket& bucket);
  void take_back(const Bucket& bucket);

  store::Secrets& secrets_;
  std::function<std::int64_t()> now_ms_;
  ThrottleRules rules_;
};

}  // namespace pumpwright::server
