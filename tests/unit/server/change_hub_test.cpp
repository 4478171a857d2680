#include "server/change_hub.h"

#include <regex>

#include <gtest/gtest.h>

#include "server/connection_registry.h"
#include "server/worker_pool.h"
#include "tests/unit/server/a_store.h"

namespace pumpwright::server {
namespace {

struct AHub : AStore {
  ChangeHub hub{store->events()};

  AHub() {
    store->events().set_listener([this](auto events) { hub.on_committed(events); });
  }
  ~AHub() { store->events().set_listener({}); }
  AHub(const AHub&) = delete;
  AHub& operator=(const AHub&) = delete;

  void append(const std::string& stream, const std::string& type = "note",
              const std::string& payload = "{}") {
    const auto result = store->events().append({.stream = stream,
                                                .events = {{.type = type,
                                                            .actor = "J.M.",
                                                            .device = "d",
                                                            .device_seq = 1,
                                                            .key = "key-" + std::to_string(next_key_++),
                                                            .payload = payload}},
                                                .expected_head = std::nullopt,
                                                .index_change = {}});
    ASSERT_TRUE(std::holds_alternative<store::Appended>(result));
  }

  static ChangeHub::Listening listening(const std::string& session = "s") {
    return {.still_allowed = [] { return true; }, .session = session};
  }

 private:
  int next_key_ = 0;
};

std::vector<std::string> ids_in(const std::string& text) {
  std::vector<std::string> ids;
  static const std::regex line("id: ([^\n]*)\n");
  for (std::sregex_iterator at(text.begin(), text.end(), line), end; at != end; ++at)
    ids.push_back((*at)[1]);
  return ids;
}

using Ids = std::vector<std::string>;

TEST(JobStream, BeginsWithTheLastEventAndGoesOn) {
  AHub at;
  at.append("job/1");
  at.append("job/1");
  const auto channel = at.hub.listen_to_job("job/1", std::nullopt, AHub::listening());
  EXPECT_EQ(ids_in(channel->take()), Ids{"2"});
  at.append("job/1");
  at.append("job/2");
  at.append("shop");
  EXPECT_EQ(ids_in(channel->take()), Ids{"3"});
}

TEST(JobStream, ResumesAfterTheEventTheListenerHas) {
  AHub at;
  for (int i = 0; i < 5; ++i)
    at.append("job/1");
  const auto channel = at.hub.listen_to_job("job/1", 2, AHub::listening());
  EXPECT_EQ(ids_in(channel->take()), (Ids{"3", "4", "5"}));
  const auto up_to_date = at.hub.listen_to_job("job/1", 5, AHub::listening());
  EXPECT_EQ(up_to_date->take(), "");
}

TEST(JobStream, AnIdFromTheFutureDoesNotSilenceWhatComes) {
  AHub at;
  at.append("job/1");
  const auto channel = at.hub.listen_to_job("job/1", 1000, AHub::listening());
  EXPECT_EQ(channel->take(), "");
  at.append("job/1");
  EXPECT_EQ(ids_in(channel->take()), Ids{"2"});
}

TEST(JobStream, ManyMissedEventsAreToldAsTheLastAlone) {
  AHub at;
  for (std::size_t i = 0; i < ChangeHub::replay_max + 2; ++i)
    at.append("job/1");
  const auto channel = at.hub.listen_to_job("job/1", 1, AHub::listening());
  EXPECT_EQ(ids_in(channel->take()), Ids{std::to_string(ChangeHub::replay_max + 2)});
}

TEST(JobStream, SaysWhatHappenedToWhichCheckByWhom) {
  AHub at;
  const auto channel = at.hub.listen_to_job("job/1", 0, AHub::listening());
  at.append("job/1", "reading", R"({"check":"shaft-runout"})");
  const auto text = channel->take();
  EXPECT_NE(text.find("event: change\ndata: {"), std::string::npos);
  EXPECT_NE(text.find(R"("check":"shaft-runout")"), std::string::npos);
  EXPECT_NE(text.find(R"("actor":"J.M.")"), std::string::npos);
  EXPECT_NE(text.find(R"("type":"reading")"), std::string::npos);
  at.append("job/1", "reading", "not json");
  EXPECT_EQ(channel->take().find("check"), std::string::npos);
}

TEST(JobStream, HearsEveryEventOnceWhileManyThreadsAppend) {
  AHub at;
  WorkerPool pool({.threads = 4, .waiting_max = 1000});
  std::atomic<int> key = 0;
  for (int i = 0; i < 200; ++i)
    pool.try_post([&] {
      at.store->events().append({.stream = "job/1",
                                 .events = {{.type = "note",
                                             .actor = "a",
                                             .device = "d",
                                             .device_seq = 1,
                                             .key = "k" + std::to_string(key++),
                                             .payload = "{}"}},
                                 .expected_head = std::nullopt,
                                 .index_change = {}});
    });
  std::vector<std::shared_ptr<EventChannel>> channels;
  for (int i = 0; i < 20; ++i)
    channels.push_back(at.hub.listen_to_job("job/1", 0, AHub::listening()));
  pool.finish();
  for (const auto& channel : channels) {
    const auto ids = ids_in(channel->take());
    ASSERT_EQ(ids.size(), 200U);
    for (std::size_t i = 0; i < ids.size(); ++i)
      EXPECT_EQ(ids[i], std::to_string(i + 1));
  }
}

TEST(ShopStream, HearsOfEveryStreamAndResumes) {
  AHub at;
  const auto channel = at.hub.listen_to_shop("", AHub::listening());
  EXPECT_NE(channel->take().find(R"("stream":"shop")"), std::string::npos);
  at.append("job/1");
  at.append("shop");
  const auto text = channel->take();
  EXPECT_NE(text.find(R"({"seq":1,"stream":"job/1"})"), std::string::npos);
  const auto ids = ids_in(text);
  ASSERT_EQ(ids.size(), 2U);
  const auto resumed = at.hub.listen_to_shop(ids.front(), AHub::listening());
  EXPECT_EQ(ids_in(resumed->take()), Ids{ids.back()});
}

TEST(ShopStream, AnIdOfAnotherRunBeginsWithAChangeOfTheShop) {
  AHub at;
  at.append("job/1");
  for (const auto* id : {"another-1", "x", "999"}) {
    const auto text = at.hub.listen_to_shop(id, AHub::listening())->take();
    EXPECT_EQ(ids_in(text).size(), 1U);
    EXPECT_NE(text.find(R"("stream":"shop")"), std::string::npos);
  }
}

TEST(Streams, EndWithTheirSession) {
  AHub at;
  const auto mine = at.hub.listen_to_job("job/1", 0, AHub::listening("mine"));
  const auto also = at.hub.listen_to_shop("", AHub::listening("mine"));
  const auto other = at.hub.listen_to_job("job/1", 0, AHub::listening("other"));
  at.hub.end_session("mine");
  EXPECT_TRUE(mine->closed());
  EXPECT_TRUE(also->closed());
  EXPECT_FALSE(other->closed());
}

TEST(Streams, ThoseGoneAreForgotten) {
  AHub at;
  for (int i = 0; i < 100; ++i) {
    at.hub.listen_to_job("job/1", 0, AHub::listening());
    at.hub.listen_to_shop("", AHub::listening());
  }
  EXPECT_LE(at.hub.listeners(), 2U);
}

TEST(EventChannel, AListenerThatDoesNotReadIsDropped) {
  EventChannel channel([] { return true; });
  const std::string text(1000, 'x');
  std::size_t pushed = 0;
  while (channel.push(text))
    ++pushed;
  EXPECT_EQ(pushed, EventChannel::bytes_max / 1000);
  EXPECT_TRUE(channel.closed());
  EXPECT_FALSE(channel.push("more"));
}

TEST(EventChannel, WakesItsListenerForTextAndForTheEnd) {
  EventChannel channel([] { return true; });
  int woken = 0;
  channel.push("before");
  channel.on_news([&] { ++woken; });
  EXPECT_EQ(woken, 1);  // what waited is news
  channel.push("a");
  channel.close();
  EXPECT_EQ(woken, 3);
  EXPECT_EQ(channel.take(), "beforea");
  channel.on_news(nullptr);
}

TEST(EventText, IsOneMessageOfTheFormat) {
  EXPECT_EQ(event_text("change", "7", "{}"), "id: 7\nevent: change\ndata: {}\n\n");
  EXPECT_EQ(event_text("change", "", "{}"), "event: change\ndata: {}\n\n");
}

TEST(WorkerPool, TakesNoMoreThanItsQueueHoldsAndDoesAllItTook) {
  std::mutex gate;
  std::atomic<int> done = 0;
  WorkerPool pool({.threads = 1, .waiting_max = 3});
  int taken = 0;
  {
    const std::lock_guard closed(gate);
    for (int i = 0; i < 50; ++i)
      if (pool.try_post([&] {
            const std::lock_guard lock(gate);
            ++done;
          }))
        ++taken;
    EXPECT_GE(taken, 3);
    EXPECT_LE(taken, 4);  // three wait, one may have begun
  }
  pool.finish();
  EXPECT_EQ(done, taken);
  EXPECT_FALSE(pool.try_post([] {}));
}

TEST(ConnectionRegistry, HasPlacesInTotalAndForEachAddress) {
  ConnectionRegistry registry({.connections_max = 3, .per_address_max = 2});
  auto a1 = registry.take_place("a");
  auto a2 = registry.take_place("a");
  EXPECT_TRUE(a1 && a2);
  EXPECT_FALSE(registry.take_place("a"));
  auto b1 = registry.take_place("b");
  EXPECT_TRUE(b1);
  EXPECT_FALSE(registry.take_place("c"));
  a1.reset();
  EXPECT_EQ(registry.count(), 2U);
  EXPECT_TRUE(registry.take_place("c"));
  int emptied = 0;
  registry.when_empty([&] { ++emptied; });
  EXPECT_EQ(emptied, 0);
  a2.reset();
  b1.reset();
  EXPECT_EQ(emptied, 1);
  registry.when_empty([&] { ++emptied; });
  EXPECT_EQ(emptied, 2);
}

}  // namespace
}  // namespace pumpwright::server
