#include "catalog/digest.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include <sodium.h>

namespace pumpwright {
namespace {

constexpr std::size_t digest_size = 32;

void add_length(crypto_generichash_state& state, std::uint64_t length) {
  std::array<unsigned char, 8> bytes{};
  for (auto& byte : bytes) {
    byte = static_cast<unsigned char>(length & 0xFFU);
    length >>= 8U;
  }
  crypto_generichash_update(&state, bytes.data(), bytes.size());
}

void add_text(crypto_generichash_state& state, std::string_view text) {
  add_length(state, text.size());
  const auto bytes = std::as_bytes(std::span(text));
  // libsodium takes unsigned char, the library's own spelling of a byte.
  crypto_generichash_update(&state, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
}

}  // namespace

std::string digest_of(std::span<const NamedBytes> files) {
  std::vector<NamedBytes> sorted(files.begin(), files.end());
  std::ranges::sort(sorted, {}, &NamedBytes::name);
  crypto_generichash_state state;
  crypto_generichash_init(&state, nullptr, 0, digest_size);
  for (const auto& file : sorted) {
    add_text(state, file.name);
    add_text(state, file.bytes);
  }
  std::array<unsigned char, digest_size> hash{};
  crypto_generichash_final(&state, hash.data(), hash.size());
  std::array<char, 2 * digest_size + 1> hex{};
  sodium_bin2hex(hex.data(), hex.size(), hash.data(), hash.size());
  return hex.data();
}

}  // namespace pumpwright
