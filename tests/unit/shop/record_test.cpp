#include "shop/record.h"

#include <gtest/gtest.h>

#include "shop/job_index.h"
#include "store/event_hash.h"
#include "tests/unit/shop/bench_shop.h"

namespace pumpwright::shop {
namespace {

using testing::BenchShop;

struct Released {
  BenchShop bench;
  std::string bytes;
  std::string trusted;
  Released() {
    const std::string number = bench.open_demo("greenhouse-circulator");
    bench.work_through("greenhouse-circulator");
    bench.shop().release(bench.lead(), number, bench.envelope(), testing::lead_password,
                         "built and checked as recorded");
    bytes = bench.shop().record_json(number);
    trusted = public_key_from_text(bench.shop().public_key_file());
  }
};

const Released& released() {
  static const Released one;
  return one;
}

std::string first_fault(const std::string& bytes) {
  try {
    const RecordProof proof = prove(decode_record(bytes), released().trusted, std::nullopt);
    return proof.holds() ? "" : proof.faults.front().what;
  } catch (const BadInput& e) {
    return e.what();
  }
}

TEST(Record, ProvesItselfOnAnotherMachine) {
  const Record record = decode_record(released().bytes);
  const RecordProof proof = prove(record, released().trusted, std::nullopt);
  EXPECT_TRUE(proof.holds()) << proof.faults.front().what;
  ASSERT_EQ(proof.signatures.size(), 1U);
  EXPECT_EQ(proof.signatures[0].person, "L.H.");
  EXPECT_EQ(proof.signatures[0].role, "lead-hand");
  EXPECT_EQ(encode_record(record), released().bytes);
}

TEST(Record, IsJudgedLikeTheJobItCameFrom) {
  const job::JobLog log = job_in(decode_record(released().bytes));
  const auto judgement = job::judge(log.snapshot(), log.state());
  EXPECT_TRUE(judgement.all_pass());
  EXPECT_GT(judgement.passed, 40);
}

TEST(Record, AnotherShopsKeyProvesNothing) {
  const RecordProof proof =
      prove(decode_record(released().bytes), SigningKey::generate().public_key(), std::nullopt);
  EXPECT_GE(proof.faults.size(), 2U);  // seal and release
  EXPECT_TRUE(proof.signatures.empty());
}

TEST(Record, EveryChangedByteOfAReadingIsFoundAndItsEventNamed) {
  const std::string& bytes = released().bytes;
  const std::size_t at = bytes.find("impeller-sweep");
  ASSERT_NE(at, std::string::npos);
  const Record record = decode_record(bytes);
  for (std::size_t i = 0; i < record.events.size(); ++i) {
    const std::string mark = "\n  {\"seq\":" + std::to_string(record.events[i].seq) + ",";
    const std::size_t line = bytes.find(mark);
    ASSERT_NE(line, std::string::npos);
    const std::size_t payload = bytes.find("\"payload\":", line) + 20;
    std::string changed = bytes;
    changed[payload] = static_cast<char>(changed[payload] == 'x' ? 'y' : 'x');
    EXPECT_NE(first_fault(changed).find("event " + std::to_string(record.events[i].seq)), std::string::npos)
        << first_fault(changed);
  }
}

TEST(Record, NoSingleBitCanBeChangedUnseen) {
  const std::string& bytes = released().bytes;
  for (std::size_t i = 3; i < bytes.size(); i += 997) {
    std::string changed = bytes;
    changed[i] = static_cast<char>(changed[i] ^ 1);
    EXPECT_NE(first_fault(changed), "") << "at byte " << i << ": " << bytes.substr(i > 20 ? i - 20 : 0, 40);
  }
}

TEST(Record, AShortenedRecordIsFoundByItsSealAndByTheNamedHead) {
  Record record = decode_record(released().bytes);
  const std::string head = store::to_hex(record.events.back().hash);
  record.events.pop_back();
  EXPECT_FALSE(prove(record, released().trusted, std::nullopt).holds());
  const auto with_head = prove(record, released().trusted, head).faults;
  EXPECT_GT(with_head.size(), prove(record, released().trusted, std::nullopt).faults.size());
}

TEST(Record, AReorderedOrForeignEventIsFound) {
  Record record = decode_record(released().bytes);
  std::swap(record.events[5], record.events[6]);
  EXPECT_NE(prove(record, released().trusted, std::nullopt).faults.front().what.find("event"),
            std::string::npos);
}

TEST(Record, RefusesWhatIsNoRecord) {
  EXPECT_THROW(decode_record("{}"), BadInput);
  EXPECT_THROW(decode_record("{\"format\": \"pumpwright-record\", \"version\": 2}"), BadInput);
  EXPECT_TRUE(looks_like_record(released().bytes));
  EXPECT_FALSE(looks_like_record("{\"format\": \"pumpwright-job\"}"));
}

}  // namespace
}  // namespace pumpwright::shop
