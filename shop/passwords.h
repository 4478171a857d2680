// What proves that somebody is who he says: passwords and PINs, kept only as Argon2id hashes, and keys kept
// only under a password.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace pumpwright::shop {

inline constexpr std::size_t password_chars_min = 12;
inline constexpr std::size_t password_bytes_max = 512;
inline constexpr std::size_t pin_digits_min = 6;
inline constexpr std::size_t pin_digits_max = 12;

// How dear one guess is. `interactive` takes 64 MiB; `brief` is for tests and demonstration data only.
enum class Effort { interactive, brief };

// Throws BadInput (field "password") outside the lengths above or for a text that is no UTF-8, and for a
// password that is a single repeated character.
void want_password(std::string_view password);
// Throws BadInput (field "pin") unless 6 to 12 digits, not all the same, not a run such as 123456.
void want_pin(std::string_view pin);

// Argon2id (RFC 9106) with a salt of its own, in the text form of libsodium. Throws std::bad_alloc when the
// machine has no memory for it.
std::string hash_secret(std::string_view secret, Effort effort);
bool matches_secret(const std::string& hash, std::string_view secret);

// Spends the time of matches_secret without an answer, so that an unknown name takes as long as a known one.
void spend_equal_time(std::string_view secret, Effort effort);

// Encrypts `plain` under a key derived from the password by Argon2id (XSalsa20-Poly1305).
std::string wrap(std::string_view plain, std::string_view password, Effort effort);
// Nothing when the password is wrong or the bytes are damaged.
std::optional<std::string> unwrap(std::string_view wrapped, std::string_view password);

}  // namespace pumpwright::shop
