#include "shop/signing_key.h"

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include <fcntl.h>
#include <sodium.h>
#include <unistd.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::shop {
namespace {

constexpr std::string_view public_prefix = "pumpwright-shop-key 1 ed25519 ";
constexpr std::string_view secret_prefix = "pumpwright-shop-secret 1 ed25519 ";

const unsigned char* raw(std::string_view bytes) {
  return reinterpret_cast<const unsigned char*>(bytes.data());  // NOLINT: libsodium takes unsigned char
}
unsigned char* raw(std::string& bytes) {
  return reinterpret_cast<unsigned char*>(bytes.data());  // NOLINT
}

std::string to_hex(std::string_view bytes) {
  std::string out(bytes.size() * 2 + 1, '\0');
  sodium_bin2hex(out.data(), out.size(), raw(bytes), bytes.size());
  out.pop_back();
  return out;
}

std::optional<std::string> from_hex(std::string_view hex, std::size_t bytes) {
  std::string out(bytes, '\0');
  std::size_t length = 0;
  if (hex.size() != bytes * 2 ||
      sodium_hex2bin(raw(out), out.size(), hex.data(), hex.size(), nullptr, &length, nullptr) != 0 ||
      length != bytes)
    return std::nullopt;
  return out;
}

void append_length(std::string& out, std::uint64_t length) {
  for (int shift = 0; shift < 64; shift += 8)
    out.push_back(static_cast<char>((length >> shift) & 0xFFU));
}

void write_new_secret(const std::string& path, const std::string& text) {
  const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);  // NOLINT: POSIX
  if (file < 0)
    throw std::runtime_error("the shop's key can not be made in " + path + ": " + std::strerror(errno));
  const bool written =
      ::write(file, text.data(), text.size()) == static_cast<ssize_t>(text.size()) && ::fsync(file) == 0;
  ::close(file);
  if (!written) {
    ::unlink(path.c_str());
    throw std::runtime_error("the shop's key can not be written to " + path);
  }
}

std::string without_line_end(std::string text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == '\r'))
    text.pop_back();
  return text;
}

}  // namespace

std::string signed_bytes(std::string_view purpose, std::span<const std::string> fields) {
  std::string out;
  append_length(out, purpose.size());
  out += purpose;
  for (const auto& field : fields) {
    append_length(out, field.size());
    out += field;
  }
  return out;
}

SigningKey SigningKey::generate() {
  if (sodium_init() < 0) throw std::runtime_error("libsodium does not start");
  std::string seed(crypto_sign_SEEDBYTES, '\0');
  randombytes_buf(seed.data(), seed.size());
  return *from_seed(seed);
}

std::optional<SigningKey> SigningKey::from_seed(std::string_view seed) {
  if (sodium_init() < 0 || seed.size() != crypto_sign_SEEDBYTES) return std::nullopt;
  SigningKey key;
  key.seed_ = seed;
  key.secret_.resize(crypto_sign_SECRETKEYBYTES);
  std::string public_key(crypto_sign_PUBLICKEYBYTES, '\0');
  crypto_sign_seed_keypair(raw(public_key), raw(key.secret_), raw(seed));
  key.public_key_ = to_hex(public_key);
  return key;
}

std::string SigningKey::sign(std::string_view bytes) const {
  std::string signature(crypto_sign_BYTES, '\0');
  crypto_sign_detached(raw(signature), nullptr, raw(bytes), bytes.size(), raw(std::string_view(secret_)));
  return to_hex(signature);
}

bool signature_holds(std::string_view public_key, std::string_view bytes, std::string_view signature) {
  if (sodium_init() < 0) return false;
  const auto key = from_hex(public_key, crypto_sign_PUBLICKEYBYTES);
  const auto sig = from_hex(signature, crypto_sign_BYTES);
  return key && sig &&
         crypto_sign_verify_detached(raw(std::string_view(*sig)), raw(bytes), bytes.size(),
                                     raw(std::string_view(*key))) == 0;
}

std::string public_key_text(std::string_view public_key) {
  return std::string(public_prefix) + std::string(public_key) + "\n";
}

std::string public_key_from_text(std::string_view text) {
  const std::string line = without_line_end(std::string(text));
  if (line.rfind(public_prefix, 0) == 0 &&
      from_hex(line.substr(public_prefix.size()), crypto_sign_PUBLICKEYBYTES))
    return line.substr(public_prefix.size());
  throw BadInput(
      {.field = "--trust",
       .place = "",
       .value = line.substr(0, 80),
       .expected = "a shop's public key: \"pumpwright-shop-key 1 ed25519 \" and 64 hexadecimal digits"});
}

SigningKey shop_key_in(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) {
    SigningKey key = SigningKey::generate();
    write_new_secret(path, std::string(secret_prefix) + to_hex(key.seed()) + "\n");
    return key;
  }
  std::ostringstream text;
  text << file.rdbuf();
  const std::string line = without_line_end(text.str());
  if (line.rfind(secret_prefix, 0) == 0)
    if (const auto seed = from_hex(line.substr(secret_prefix.size()), crypto_sign_SEEDBYTES))
      return *SigningKey::from_seed(*seed);
  throw std::runtime_error(path + " holds no shop key");
}

}  // namespace pumpwright::shop
