#include "server/random_token.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <stdexcept>

#include <sodium.h>

#include "server/http_text.h"

namespace pumpwright::server {
namespace {

using Digest = std::array<unsigned char, 32>;

void want_sodium() {
  if (::sodium_init() < 0) throw std::runtime_error("the cryptographic library can not start");
}

std::string hexadecimal(const Digest& bytes) {
  std::array<char, 65> text{};
  ::sodium_bin2hex(text.data(), text.size(), bytes.data(), bytes.size());
  return {text.data(), 64};
}

Digest blake(std::string_view text, std::string_view key) {
  Digest digest{};
  ::crypto_generichash(
      digest.data(), digest.size(), reinterpret_cast<const unsigned char*>(text.data()), text.size(),
      key.empty() ? nullptr : reinterpret_cast<const unsigned char*>(key.data()), key.size());
  return digest;
}

}  // namespace

std::string random_token() {
  want_sodium();
  Digest bytes{};
  ::randombytes_buf(bytes.data(), bytes.size());
  return hexadecimal(bytes);
}

std::string token_hash(std::string_view token) {
  want_sodium();
  return hexadecimal(blake(token, {}));
}

std::string derived_token(std::string_view key, std::string_view token) {
  want_sodium();
  return hexadecimal(blake(token, key));
}

bool same_token(std::string_view a, std::string_view b) {
  return a.size() == b.size() && ::sodium_memcmp(a.data(), b.data(), a.size()) == 0;
}

std::string random_code() {
  want_sodium();
  static constexpr std::string_view alphabet = "ABCDEFGHJKMNPQRSTUVWXYZ23456789";
  static_assert(alphabet.size() == 31);
  std::string code;
  for (int i = 0; i < 12; ++i) {
    if (i == 4 || i == 8) code += '-';
    code += alphabet[::randombytes_uniform(static_cast<std::uint32_t>(alphabet.size()))];
  }
  return code;
}

std::string code_as_compared(std::string_view typed) {
  auto code = lower_case(typed);
  std::erase_if(code, [](char c) { return c == '-' || c == ' '; });
  return code;
}

}  // namespace pumpwright::server
