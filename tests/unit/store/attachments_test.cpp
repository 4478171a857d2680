#include "store/attachments.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include "store/event_hash.h"
#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

TEST(Attachments, AreFoundByTheHashOfTheirBytes) {
  ScratchStore scratch;
  const std::string bytes("\xff\xd8\xff\0photo", 9);
  const std::string hash = scratch->attachments().put({"image/jpeg", bytes});
  EXPECT_EQ(hash, to_hex(blake2b_256(bytes)));
  EXPECT_TRUE(scratch->attachments().has(hash));
  const auto got = scratch->attachments().get(hash);
  ASSERT_TRUE(got.has_value());
  EXPECT_EQ(got->bytes, bytes);
  EXPECT_EQ(got->media_type, "image/jpeg");
}

TEST(Attachments, AreKeptOnce) {
  ScratchStore scratch;
  const std::string hash = scratch->attachments().put({"image/png", "same"});
  EXPECT_EQ(scratch->attachments().put({"image/webp", "same"}), hash);
  EXPECT_EQ(scratch->attachments().get(hash)->media_type, "image/png");
  EXPECT_EQ(scratch->verify().attachments, 1U);
}

TEST(Attachments, AreAbsentUnderAnyOtherName) {
  ScratchStore scratch;
  EXPECT_FALSE(scratch->attachments().get("").has_value());
  EXPECT_FALSE(scratch->attachments().get("../../etc/passwd").has_value());
  EXPECT_FALSE(scratch->attachments().get(std::string(64, '0')).has_value());
  EXPECT_FALSE(scratch->attachments().has(std::string(64, '0')));
}

TEST(Attachments, HaveASizeThatIsTheLargest) {
  ScratchStore scratch;
  std::string bytes(attachment_bytes_max, 'p');
  const std::string hash = scratch->attachments().put({"application/pdf", bytes});
  EXPECT_EQ(scratch->attachments().get(hash)->bytes.size(), attachment_bytes_max);
  bytes += 'p';
  EXPECT_THROW(scratch->attachments().put({"application/pdf", bytes}), std::length_error);
  EXPECT_THROW(scratch->attachments().put({"", "x"}), std::length_error);
}

TEST(Attachments, FillTheirRoomToTheLastByteAndNotBeyond) {
  ScratchStore scratch;
  auto& attachments = scratch->attachments();
  ASSERT_TRUE(attachments.put_within({"image/png", "12345"}, 8).has_value());
  EXPECT_FALSE(attachments.put_within({"image/png", "6789"}, 8).has_value());
  EXPECT_EQ(scratch->verify().attachments, 1U);
  EXPECT_TRUE(attachments.put_within({"image/png", "678"}, 8).has_value());
  EXPECT_FALSE(attachments.put_within({"image/png", "9"}, 8).has_value());
  EXPECT_TRUE(attachments.put_within({"image/png", "12345"}, 8).has_value());  // is there already
  EXPECT_TRUE(attachments.put_within({"image/png", "9"}, 9).has_value());
  EXPECT_EQ(scratch->verify().attachments, 3U);
}

TEST(Attachments, ThatWereAlteredAreNotGivenOut) {
  ScratchStore scratch;
  const std::string hash = scratch->attachments().put({"image/png", "before"});
  {
    SQLite::Database database(scratch.file.string(), SQLite::OPEN_READWRITE);
    database.exec("DROP TRIGGER attachment_stays");
    database.exec("UPDATE attachment SET bytes = X'00'");
  }
  try {
    scratch->attachments().get(hash);
    FAIL() << "altered bytes were given out";
  } catch (const StoreError& error) {
    EXPECT_EQ(error.code(), StoreErrorCode::corrupt);
  }
  EXPECT_FALSE(scratch->verify().ok());
}

}  // namespace
}  // namespace pumpwright::store
