// A disk that is full or can only be read, met through the interface: told by its name, nothing half there,
// what was there can still be read, and what was handed in again under its key is there once.
#include <cstdint>
#include <fstream>
#include <optional>

#include "tests/fault/store/fault_vfs.h"
#include "tests/unit/server/a_shop.h"

namespace pumpwright::server {
namespace {

// One demonstration job in a shop whose disk can be made bad.
struct AtABadDisk {
  store::DiskModel disk{1};
  store::FaultVfs vfs{disk};
  AStaffedShop at;

  AtABadDisk() {
    std::ifstream in(PUMPWRIGHT_SOURCE_DIR "/demo/greenhouse-circulator.json");
    const auto demo = json::parse(in);
    const auto opened = at.lead_hand.ask("POST", "/api/jobs",
                                         {{"key", "open"},
                                          {"device", "test"},
                                          {"device_seq", 1},
                                          {"job",
                                           {{"number", "D-1"},
                                            {"customer", "orchard"},
                                            {"pump", "wash pump"},
                                            {"serial", "S-1"},
                                            {"reason", "leaks"}}},
                                          {"make_up", demo.at("make_up")}});
    EXPECT_EQ(opened.status, 201) << opened.body;
  }

  HttpResponse hand_in_notes(int count) {
    auto events = json::array();
    for (int i = 0; i < count; ++i)
      events.push_back({{"key", "note-" + std::to_string(i)},
                        {"device_seq", i + 1},
                        {"type", "note"},
                        {"payload", json{{"step", "make-safe"}, {"text", std::string(500, 'n')}}.dump()}});
    return at.lead_hand.ask("POST", "/api/jobs/D-1/events", {{"device", "test"}, {"events", events}});
  }

  json job() { return json::parse(at.lead_hand.ask("GET", "/api/jobs/D-1").body); }
  std::uint64_t seq() { return job().at("seq").get<std::uint64_t>(); }
};

TEST(FullDisk, IsSaidSoAndWhatIsHandedInAgainIsThereOnce) {
  AtABadDisk with;
  const auto before = with.seq();
  const auto used = with.disk.bytes_used();
  // From no room at all to nearly enough: the write breaks off at ever other places.
  for (std::uint64_t room = 0; room < 12'000; room += 1571) {
    with.disk.set_capacity(used + room);
    const auto answer = with.hand_in_notes(40);
    ASSERT_EQ(answer.status, 507) << room << answer.body;
    EXPECT_EQ(code_of(answer), "disk-full");
    EXPECT_EQ(with.seq(), before) << "nothing of it may be there";
  }
  with.disk.set_capacity(std::nullopt);
  for (int again = 0; again < 2; ++again) {
    const auto answer = json::parse(with.hand_in_notes(40).body);
    EXPECT_EQ(answer.at("accepted").size(), 40U);
    EXPECT_EQ(answer.at("refused").size(), 0U);
    EXPECT_EQ(with.seq(), before + 40);
  }
  EXPECT_TRUE(with.at.store->verify().ok());
}

TEST(ReadOnlyDisk, IsSaidSoAndWhatIsHandedInAgainIsThereOnce) {
  AtABadDisk with;
  const auto before = with.seq();
  const auto shown_before = with.job().at("steps");
  with.disk.set_read_only(true);
  const auto answer = with.hand_in_notes(3);
  EXPECT_EQ(answer.status, 503) << answer.body;
  EXPECT_EQ(code_of(answer), "read-only-store");
  EXPECT_EQ(with.seq(), before);
  EXPECT_EQ(with.job().at("steps"), shown_before);
  with.disk.set_read_only(false);
  EXPECT_EQ(json::parse(with.hand_in_notes(3).body).at("accepted").size(), 3U);
  EXPECT_EQ(with.seq(), before + 3);
  EXPECT_NE(with.job().at("steps"), shown_before);
  EXPECT_TRUE(with.at.store->verify().ok());
}

TEST(ReadOnlyDisk, TheShopsOwnDataAreNotHalfChangedEither) {
  AtABadDisk with;
  const json name{{"key", "name"},
                  {"device_seq", 9},
                  {"type", "shop-named"},
                  {"payload", json{{"name", "Renamed"}}.dump()}};
  const json body{{"device", "test"}, {"events", json::array({name})}};
  with.disk.set_read_only(true);
  EXPECT_EQ(code_of(with.at.lead_hand.ask("POST", "/api/shop/events", body)), "read-only-store");
  EXPECT_NE(with.at.shop.state()->name, "Renamed");
  with.disk.set_read_only(false);
  EXPECT_EQ(with.at.lead_hand.ask("POST", "/api/shop/events", body).status, 200);
  EXPECT_EQ(with.at.shop.state()->name, "Renamed");
}

// The time of the last request is written now and then; that must not stand in the way of reading.
TEST(ReadOnlyDisk, LeavesReadingAlone) {
  AtABadDisk with;
  with.disk.set_read_only(true);
  with.at.pass(6 * 60);
  EXPECT_EQ(with.at.lead_hand.ask("GET", "/api/jobs/D-1").status, 200);
  EXPECT_EQ(with.at.lead_hand.ask("GET", "/api/jobs").status, 200);
  ASSERT_FALSE(with.at.logged.empty());
  EXPECT_NE(with.at.logged.front().find("last seen"), std::string::npos);
}

}  // namespace
}  // namespace pumpwright::server
