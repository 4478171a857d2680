// Ed25519 (RFC 8032) signatures over texts put together so that no two sets of fields give the same bytes.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace pumpwright::shop {

// The bytes that are signed: every field with its length before it (64 bit, little endian), the purpose
// first.
std::string signed_bytes(std::string_view purpose, std::span<const std::string> fields);

class SigningKey {
 public:
  static SigningKey generate();
  // From the 32 bytes of seed(); nothing for another number of bytes.
  static std::optional<SigningKey> from_seed(std::string_view seed);

  const std::string& seed() const { return seed_; }              // 32 bytes, secret
  const std::string& public_key() const { return public_key_; }  // 64 hexadecimal digits
  std::string sign(std::string_view bytes) const;                // 128 hexadecimal digits

 private:
  SigningKey() = default;
  std::string seed_, secret_, public_key_;
};

// False for a wrong signature and for anything that is no key or no signature.
bool signature_holds(std::string_view public_key, std::string_view bytes, std::string_view signature);

// What `verify --trust` reads: one line, "pumpwright-shop-key 1 ed25519 " and the key in hexadecimal.
std::string public_key_text(std::string_view public_key);
// The key in such a text. Throws BadInput (field "--trust").
std::string public_key_from_text(std::string_view text);

// The shop's own key, kept in a file of mode 0600; made when there is none. Throws std::runtime_error when
// the file can not be read or made, or holds something else.
SigningKey shop_key_in(const std::string& path);

}  // namespace pumpwright::shop
