#include "shop/passwords.h"

#include <algorithm>
#include <array>
#include <new>
#include <stdexcept>

#include <sodium.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::shop {
namespace {

constexpr std::size_t nonce_bytes = crypto_secretbox_NONCEBYTES;
constexpr std::size_t salt_bytes = crypto_pwhash_SALTBYTES;

struct Cost {
  unsigned long long passes;
  std::size_t memory_bytes;
};

Cost cost_of(Effort effort) {
  if (effort == Effort::brief) return {crypto_pwhash_OPSLIMIT_MIN, crypto_pwhash_MEMLIMIT_MIN};
  return {crypto_pwhash_OPSLIMIT_INTERACTIVE, crypto_pwhash_MEMLIMIT_INTERACTIVE};
}

void want_sodium() {
  if (sodium_init() < 0) throw std::runtime_error("libsodium does not start");
}

unsigned char* raw(std::string& bytes) {
  return reinterpret_cast<unsigned char*>(bytes.data());  // NOLINT: libsodium takes unsigned char
}
const unsigned char* raw(std::string_view bytes) {
  return reinterpret_cast<const unsigned char*>(bytes.data());  // NOLINT
}

[[noreturn]] void refuse(const char* field, const std::string& expected) {
  throw BadInput({.field = field, .place = "", .value = "(not shown)", .expected = expected});
}

// The number of UTF-8 characters; nothing when the bytes are none.
std::optional<std::size_t> characters(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++count) {
    const auto lead = static_cast<unsigned char>(text[i]);
    const std::size_t length = lead < 0x80   ? 1
                               : lead < 0xC2 ? 0
                               : lead < 0xE0 ? 2
                               : lead < 0xF0 ? 3
                               : lead < 0xF5 ? 4
                                             : 0;
    if (length == 0 || i + length > text.size()) return std::nullopt;
    for (std::size_t k = 1; k < length; ++k)
      if ((static_cast<unsigned char>(text[i + k]) & 0xC0U) != 0x80U) return std::nullopt;
    i += length;
  }
  return count;
}

bool all_equal(std::string_view text) {
  return std::adjacent_find(text.begin(), text.end(), std::not_equal_to<>()) == text.end();
}

bool is_run(std::string_view digits, int step) {
  for (std::size_t i = 1; i < digits.size(); ++i)
    if (digits[i] - digits[i - 1] != step) return false;
  return true;
}

using Key = std::array<unsigned char, crypto_secretbox_KEYBYTES>;

Key derive(std::string_view password, std::string_view salt, const Cost& cost) {
  Key key{};
  if (crypto_pwhash(key.data(), key.size(), password.data(), password.size(), raw(salt), cost.passes,
                    cost.memory_bytes, crypto_pwhash_ALG_ARGON2ID13) != 0)
    throw std::bad_alloc();
  return key;
}

}  // namespace

void want_password(std::string_view password) {
  const auto count = password.size() <= password_bytes_max ? characters(password) : std::nullopt;
  if (!count || *count < password_chars_min || all_equal(password))
    refuse("password", "12 to 512 characters, not one character over and over; a sentence is good");
}

void want_pin(std::string_view pin) {
  const bool digits = std::all_of(pin.begin(), pin.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!digits || pin.size() < pin_digits_min || pin.size() > pin_digits_max || all_equal(pin) ||
      is_run(pin, 1) || is_run(pin, -1))
    refuse("pin", "6 to 12 digits, neither all the same nor a run such as 123456");
}

std::string hash_secret(std::string_view secret, Effort effort) {
  want_sodium();
  const Cost cost = cost_of(effort);
  std::array<char, crypto_pwhash_STRBYTES> out{};
  if (crypto_pwhash_str(out.data(), secret.data(), secret.size(), cost.passes, cost.memory_bytes) != 0)
    throw std::bad_alloc();
  return out.data();
}

bool matches_secret(const std::string& hash, std::string_view secret) {
  want_sodium();
  if (hash.size() >= crypto_pwhash_STRBYTES) return false;
  return crypto_pwhash_str_verify(hash.c_str(), secret.data(), secret.size()) == 0;
}

void spend_equal_time(std::string_view secret, Effort effort) {
  want_sodium();
  static const std::string salt(salt_bytes, 's');
  derive(secret, salt, cost_of(effort));
}

std::string wrap(std::string_view plain, std::string_view password, Effort effort) {
  want_sodium();
  std::string salt(salt_bytes, '\0'), nonce(nonce_bytes, '\0');
  randombytes_buf(salt.data(), salt.size());
  randombytes_buf(nonce.data(), nonce.size());
  Key key = derive(password, salt, cost_of(effort));
  std::string box(plain.size() + crypto_secretbox_MACBYTES, '\0');
  crypto_secretbox_easy(raw(box), raw(plain), plain.size(), raw(nonce), key.data());
  sodium_memzero(key.data(), key.size());
  return std::string(1, effort == Effort::brief ? 'b' : 'i') + salt + nonce + box;
}

std::optional<std::string> unwrap(std::string_view wrapped, std::string_view password) {
  want_sodium();
  constexpr std::size_t head = 1 + salt_bytes + nonce_bytes;
  if (wrapped.size() < head + crypto_secretbox_MACBYTES) return std::nullopt;
  if (wrapped[0] != 'b' && wrapped[0] != 'i') return std::nullopt;
  const Effort effort = wrapped[0] == 'b' ? Effort::brief : Effort::interactive;
  Key key = derive(password, wrapped.substr(1, salt_bytes), cost_of(effort));
  const std::string_view nonce = wrapped.substr(1 + salt_bytes, nonce_bytes);
  const std::string_view box = wrapped.substr(head);
  std::string plain(box.size() - crypto_secretbox_MACBYTES, '\0');
  const int opened = crypto_secretbox_open_easy(raw(plain), raw(box), box.size(), raw(nonce), key.data());
  sodium_memzero(key.data(), key.size());
  if (opened != 0) return std::nullopt;
  return plain;
}

}  // namespace pumpwright::shop
