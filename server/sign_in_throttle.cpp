#include "server/sign_in_throttle.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "server/random_token.h"
#include "store/secrets.h"

namespace pumpwright::server {
namespace {

const std::string attempts_kind = "sign-in-attempts";
const std::string pin_kind = "pin-attempts";

struct Tally {
  int failures = 0;
  std::int64_t not_before_ms = 0;
};

Tally tally_of(const std::optional<store::Secret>& secret) {
  if (!secret) return {};
  const auto json = nlohmann::json::parse(secret->bytes, nullptr, false);
  if (!json.is_object()) return {};
  return {.failures = json.value("failures", 0),
          .not_before_ms = json.value("not_before_ms", std::int64_t{0})};
}

std::string bytes_of(const Tally& tally) {
  return nlohmann::json{{"failures", tally.failures}, {"not_before_ms", tally.not_before_ms}}.dump();
}

std::string pin_id(const Attempt& attempt) {
  return token_hash("pin\n" + attempt.device + "\n" + attempt.person);
}

}  // namespace

SignInThrottle::Bucket SignInThrottle::person_bucket(const Attempt& attempt) const {
  return {.id = token_hash("person\n" + attempt.device + "\n" + attempt.person),
          .free = rules_.free_per_person};
}

SignInThrottle::Bucket SignInThrottle::address_bucket(const Attempt& attempt) const {
  return {.id = token_hash("address\n" + attempt.address), .free = rules_.free_per_address};
}

std::optional<std::int64_t> SignInThrottle::begin(const Attempt& attempt) {
  if (const auto wait = count(address_bucket(attempt))) return wait;
  const auto wait = count(person_bucket(attempt));
  if (wait) take_back(address_bucket(attempt));  // it was not tried
  return wait;
}

std::optional<std::int64_t> SignInThrottle::count(const Bucket& bucket) {
  std::optional<std::int64_t> wait_s;
  secrets_.change(
      attempts_kind, bucket.id, [&](std::optional<store::Secret> stands) -> std::optional<store::Secret> {
        const auto now = now_ms_();
        auto tally = tally_of(stands);
        wait_s.reset();
        if (now < tally.not_before_ms) {
          wait_s = (tally.not_before_ms - now + 999) / 1000;
          return stands;
        }
        ++tally.failures;
        if (tally.failures >= bucket.free) {
          const int doublings = std::min(tally.failures - bucket.free, 20);
          tally.not_before_ms = now + 1000 * std::min(std::int64_t{1} << doublings, rules_.wait_s_max);
        }
        return store::Secret{
            .id = bucket.id, .bytes = bytes_of(tally), .expires_at_ms = now + rules_.forget_ms};
      });
  return wait_s;
}

// What came before this attempt stays: knowing one password must not clear the count of guesses at others.
void SignInThrottle::take_back(const Bucket& bucket) {
  secrets_.change(attempts_kind, bucket.id,
                  [&](std::optional<store::Secret> stands) -> std::optional<store::Secret> {
                    auto tally = tally_of(stands);
                    if (tally.failures <= 1) return std::nullopt;
                    --tally.failures;
                    if (tally.failures < bucket.free) tally.not_before_ms = 0;
                    stands->bytes = bytes_of(tally);
                    return stands;
                  });
}

void SignInThrottle::succeeded(const Attempt& attempt) {
  take_back(address_bucket(attempt));
  secrets_.erase(attempts_kind, person_bucket(attempt).id);
}

bool SignInThrottle::begin_pin(const Attempt& attempt) {
  bool may = false;
  secrets_.change(
      pin_kind, pin_id(attempt), [&](std::optional<store::Secret> stands) -> std::optional<store::Secret> {
        auto tally = tally_of(stands);
        may = tally.failures < rules_.pin_attempts;
        if (!may) return stands;
        ++tally.failures;
        return store::Secret{.id = pin_id(attempt), .bytes = bytes_of(tally), .expires_at_ms = std::nullopt};
      });
  return may;
}

void SignInThrottle::forgive_pin(const Attempt& attempt) {
  secrets_.erase(pin_kind, pin_id(attempt));
}

}  // namespace pumpwright::server
