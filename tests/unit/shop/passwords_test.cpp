#include "shop/passwords.h"

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::shop {
namespace {

TEST(Passwords, AHashTellsTheRightSecretFromAnother) {
  const std::string hash = hash_secret("a lathe hums at dawn", Effort::brief);
  EXPECT_TRUE(matches_secret(hash, "a lathe hums at dawn"));
  EXPECT_FALSE(matches_secret(hash, "a lathe hums at dusk"));
  EXPECT_EQ(hash.find("lathe"), std::string::npos);
  EXPECT_EQ(hash.rfind("$argon2id$", 0), 0U);
  EXPECT_NE(hash, hash_secret("a lathe hums at dawn", Effort::brief));
  EXPECT_FALSE(matches_secret("damaged", "a lathe hums at dawn"));
}

TEST(Passwords, AWrappedKeyOpensOnlyUnderItsPasswordAndUndamaged) {
  const std::string key(32, 'k');
  std::string wrapped = wrap(key, "a lathe hums at dawn", Effort::brief);
  EXPECT_EQ(wrapped.find(key), std::string::npos);
  EXPECT_EQ(unwrap(wrapped, "a lathe hums at dawn"), key);
  EXPECT_FALSE(unwrap(wrapped, "a lathe hums at dusk"));
  wrapped.back() = static_cast<char>(wrapped.back() ^ 1);
  EXPECT_FALSE(unwrap(wrapped, "a lathe hums at dawn"));
  EXPECT_FALSE(unwrap("", "a lathe hums at dawn"));
}

TEST(Passwords, LengthIsCountedInCharacters) {
  EXPECT_NO_THROW(want_password("ñandú en flor"));
  EXPECT_THROW(want_password("ñandúñandúñ"), BadInput);  // eleven
  EXPECT_THROW(want_password("xxxxxxxxxxxxxxxx"), BadInput);
  EXPECT_THROW(want_password(std::string(513, 'a') + "b"), BadInput);
  EXPECT_THROW(want_password("twelve bytes\xFF"), BadInput);
}

TEST(Passwords, ARefusedSecretIsNotRepeatedInTheMessage) {
  try {
    want_password("tooshort1");
    FAIL();
  } catch (const BadInput& e) {
    EXPECT_EQ(std::string(e.what()).find("tooshort1"), std::string::npos);
  }
}

TEST(Passwords, APinIsNeitherShortNorPlain) {
  EXPECT_NO_THROW(want_pin("402871"));
  for (const auto* bad : {"40287", "111111", "123456", "654321", "4028a1", "4028714028714", ""})
    EXPECT_THROW(want_pin(bad), BadInput) << bad;
}

}  // namespace
}  // namespace pumpwright::shop
