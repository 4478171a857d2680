#include "shop/signing_key.h"

#include <array>
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>
#include <sys/stat.h>

#include "engine/quantity/bad_input.h"
#include "shop/certificate.h"

namespace pumpwright::shop {
namespace {

std::string bytes_of(std::string_view hex) {
  std::string out;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
    out.push_back(static_cast<char>(std::stoi(std::string(hex.substr(i, 2)), nullptr, 16)));
  return out;
}

// RFC 8032, section 7.1, TEST 2 (read).
TEST(SigningKey, SignsAsRfc8032Says) {
  const auto key =
      SigningKey::from_seed(bytes_of("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb"));
  ASSERT_TRUE(key);
  EXPECT_EQ(key->public_key(), "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c");
  EXPECT_EQ(key->sign("\x72"),
            "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
            "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00");
}

TEST(SigningKey, ASignatureHoldsForItsBytesAndKeyOnly) {
  const SigningKey key = SigningKey::generate(), other = SigningKey::generate();
  const std::string signature = key.sign("released");
  EXPECT_TRUE(signature_holds(key.public_key(), "released", signature));
  EXPECT_FALSE(signature_holds(key.public_key(), "Released", signature));
  EXPECT_FALSE(signature_holds(other.public_key(), "released", signature));
  EXPECT_FALSE(signature_holds("no key", "released", signature));
  EXPECT_FALSE(signature_holds(key.public_key(), "released", "no signature"));
}

TEST(SigningKey, FieldsCanNotRunIntoEachOther) {
  const std::array<std::string, 2> a{"ab", "c"}, b{"a", "bc"};
  EXPECT_NE(signed_bytes("x", a), signed_bytes("x", b));
  EXPECT_NE(signed_bytes("x", a), signed_bytes("y", a));
}

TEST(SigningKey, TheShopsKeyIsKeptInAFileNobodyElseReads) {
  const auto directory =
      std::filesystem::temp_directory_path() / ("pumpwright-key-" + std::to_string(::getpid()));
  std::filesystem::create_directory(directory);
  const std::string path = (directory / "shop.key").string();
  const SigningKey made = shop_key_in(path);
  struct stat file {};
  ASSERT_EQ(::stat(path.c_str(), &file), 0);
  EXPECT_EQ(file.st_mode & 0777U, 0600U);
  EXPECT_EQ(shop_key_in(path).public_key(), made.public_key());
  std::ofstream(path) << "something else\n";
  EXPECT_THROW(shop_key_in(path), std::runtime_error);
  std::filesystem::remove_all(directory);
}

TEST(SigningKey, ThePublicTextReadsBack) {
  const SigningKey key = SigningKey::generate();
  EXPECT_EQ(public_key_from_text(public_key_text(key.public_key())), key.public_key());
  EXPECT_THROW(public_key_from_text("pumpwright-shop-key 1 ed25519 12"), BadInput);
}

TEST(Certificate, VouchesForKeyAndRoleTogether) {
  const SigningKey shop = SigningKey::generate(), own = SigningKey::generate();
  Person person{"J.M.", "technician", Role::technician, true, own.public_key(), ""};
  person.certificate = certify(shop, person);
  EXPECT_TRUE(is_certified(shop.public_key(), person));
  EXPECT_FALSE(is_certified(own.public_key(), person));
  person.role = Role::lead_hand;
  EXPECT_FALSE(is_certified(shop.public_key(), person));
}

}  // namespace
}  // namespace pumpwright::shop
