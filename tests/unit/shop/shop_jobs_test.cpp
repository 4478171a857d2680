#include <thread>

#include <gtest/gtest.h>

#include "shop/job_index.h"
#include "tests/unit/shop/bench_shop.h"

namespace pumpwright::shop {
namespace {

using job::Verdict;
using testing::BenchShop;
using testing::json;
using testing::refusal_in;

json confirmation(const std::string& id, const std::string& check, const std::string& actor) {
  return {{"event", "reading"}, {"id", id},    {"check", check}, {"time", "2026-11-18T08:04:00Z"},
          {"actor", actor},     {"done", true}};
}

TEST(ShopJobs, ADemonstrationJobGivesTheSameVerdictsInTheShopAsFromItsFile) {
  for (const auto* name : {"greenhouse-circulator", "orchard-wash", "aquarium-seawater"}) {
    BenchShop bench;
    const std::string number = bench.open_demo(name);
    bench.work_through(name);
    const auto here = bench.shop().job(number)->judgement;
    const auto file = job::testing::judge_document(job::testing::demo(name)).judgement;
    EXPECT_EQ(here.passed, file.passed) << name;
    EXPECT_EQ(here.failed, file.failed) << name;
    EXPECT_EQ(here.unproven, file.unproven) << name;
    EXPECT_EQ(here.not_taken, file.not_taken) << name;
  }
}

TEST(ShopJobs, AnEventHandedInAgainIsStoredOnce) {
  BenchShop bench;
  const std::string number = bench.open_demo("aquarium-seawater");
  const HandedIn event = bench.envelope("reading", confirmation("r1", "plate-agrees", "J.M."));
  const auto first = bench.shop().hand_in(bench.hand("J.M."), number, std::span(&event, 1));
  const auto again = bench.shop().hand_in(bench.hand("J.M."), number, std::span(&event, 1));
  ASSERT_EQ(first.accepted.size(), 1U);
  ASSERT_EQ(again.accepted.size(), 1U);
  EXPECT_EQ(first.accepted[0].hash, again.accepted[0].hash);
  EXPECT_EQ(first.seq, again.seq);
  HandedIn other = event;
  other.payload = confirmation("r2", "plate-agrees", "J.M.").dump();
  EXPECT_NE(refusal_in(bench.shop().hand_in(bench.hand("J.M."), number, std::span(&other, 1))), "");
}

TEST(ShopJobs, ARefusedEventDoesNotStopTheOthers) {
  BenchShop bench;
  const std::string number = bench.open_demo("aquarium-seawater");
  const std::vector<HandedIn> events{bench.envelope("reading", confirmation("r1", "plate-agrees", "J.M.")),
                                     bench.envelope("reading", confirmation("r2", "no-such-check", "J.M.")),
                                     bench.envelope("step-done", {{"event", "step-done"},
                                                                  {"step", "identify"},
                                                                  {"time", "2026-11-18T08:06:00Z"},
                                                                  {"actor", "J.M."}})};
  const auto receipt = bench.shop().hand_in(bench.hand("J.M."), number, events);
  EXPECT_EQ(receipt.accepted.size(), 2U);
  ASSERT_EQ(receipt.refused.size(), 1U);
  EXPECT_EQ(receipt.refused[0].key, events[1].key);
  EXPECT_EQ(bench.shop().job(number)->state.standing.at("plate-agrees").size(), 1U);
}

TEST(ShopJobs, ARefusedReadingDoesNotBringItsInstrumentIntoTheJob) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  const json document = job::testing::demo("greenhouse-circulator");
  for (json instrument : document["shop"]["instruments"]) {
    if (instrument["id"] != "dial-1") continue;
    instrument["id"] = "dial-9";
    bench.shop_event("instrument-set", {{"instrument", instrument}});
  }
  json reading{{"event", "reading"},
               {"id", "r1"},
               {"check", "no-such-check"},
               {"time", "2026-11-18T08:46:00Z"},
               {"actor", "J.M."},
               {"instrument", "dial-9"},
               {"value", "4.5"}};
  EXPECT_NE(refusal_in(bench.in(bench.hand("J.M."), number, "reading", reading)), "");
  EXPECT_EQ(bench.shop().job(number)->snapshot.instruments.count("dial-9"), 0U);
  reading["check"] = "end-float";
  EXPECT_EQ(bench.in(bench.hand("J.M."), number, "reading", reading).accepted.size(), 2U);
  EXPECT_EQ(bench.shop().job(number)->snapshot.instruments.count("dial-9"), 1U);
}

TEST(ShopJobs, ReadingsOfOneCheckByTwoPeopleBothStand) {
  BenchShop bench;
  const std::string number = bench.open_demo("aquarium-seawater");
  bench.in(bench.hand("J.M."), number, "reading", confirmation("a", "plate-agrees", "J.M."));
  json no = confirmation("b", "plate-agrees", "R.S.");
  no["done"] = false;
  bench.in(bench.hand("R.S."), number, "reading", no);
  const auto picture = bench.shop().job(number);
  const auto* finding = picture->judgement.find("plate-agrees");
  EXPECT_EQ(finding->readings.size(), 2U);
  EXPECT_EQ(finding->verdict, Verdict::fail);
}

TEST(ShopJobs, NobodyHandsInForAnotherAndRolesHold) {
  BenchShop bench;
  const std::string number = bench.open_demo("aquarium-seawater");
  EXPECT_NE(
      refusal_in(bench.in(bench.hand("R.S."), number, "reading", confirmation("a", "plate-agrees", "J.M."))),
      "");
  EXPECT_NE(
      refusal_in(bench.in(bench.hand("O.F."), number, "reading", confirmation("a", "plate-agrees", "O.F."))),
      "");
  const json deviation{{"event", "deviation-accepted"},
                       {"check", "plate-agrees"},
                       {"reason", "worn plate"},
                       {"time", "2026-11-18T08:06:00Z"},
                       {"actor", "J.M."}};
  EXPECT_NE(refusal_in(bench.in(bench.hand("J.M."), number, "deviation-accepted", deviation)), "");
  EXPECT_NE(refusal_in(bench.in(bench.hand("J.M."), number, "signed", json::object())), "");
  EXPECT_NE(refusal_in(bench.in(bench.hand("J.M."), number, "plan-made", json::object())), "");
}

TEST(ShopJobs, AReadingFromTheFutureIsRefused) {
  BenchShop bench;
  const std::string number = bench.open_demo("aquarium-seawater");
  json late = confirmation("a", "plate-agrees", "J.M.");
  late["time"] = "2026-11-26T08:04:00Z";
  EXPECT_NE(refusal_in(bench.in(bench.hand("J.M."), number, "reading", late)).find("ahead"),
            std::string::npos);
}

TEST(ShopJobs, ReleaseWaitsForOpenPointsAndNeedsThePassword) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  EXPECT_THROW(bench.shop().release(bench.lead(), number, bench.envelope(), testing::lead_password, "ready"),
               Refused);
  bench.work_through("greenhouse-circulator");
  EXPECT_THROW(bench.shop().release(bench.lead(), number, bench.envelope(), "not the password", "ready"),
               Refused);
  EXPECT_THROW(
      bench.shop().release(bench.hand("J.M."), number, bench.envelope(), testing::other_password, "ready"),
      Refused);
  bench.shop().release(bench.lead(), number, bench.envelope(), testing::lead_password, "ready");
  EXPECT_TRUE(bench.shop().job(number)->logged.released);
  EXPECT_NE(
      refusal_in(bench.in(bench.hand("J.M."), number, "reading", confirmation("z", "plate-agrees", "J.M."))),
      "");
  const auto open = bench.shop().open_jobs();
  EXPECT_TRUE(
      std::none_of(open.begin(), open.end(), [&](const JobCard& card) { return card.number == number; }));
}

TEST(ShopJobs, AnAdoptedLimitReachesOpenJobs) {
  BenchShop bench;
  json document = job::testing::demo("greenhouse-circulator");
  for (const auto& instrument : document["shop"]["instruments"])
    bench.shop_event("instrument-set", {{"instrument", instrument}});
  const std::string number = bench.shop().open_job(
      bench.hand("J.M."),
      {bench.envelope(), json{{"job", document["job"]}, {"make_up", document["make_up"]}}.dump()});
  bench.work_through("greenhouse-circulator");
  EXPECT_EQ(bench.shop().job(number)->judgement.find("impeller-sweep")->reason,
            job::Reason::limit_not_adopted);
  bench.shop_event("limit-adopted", {{"limit", "seal-limits/impeller-sweep"}});
  EXPECT_EQ(bench.shop().job(number)->judgement.find("impeller-sweep")->verdict, Verdict::pass);
}

TEST(ShopJobs, OwnLimitsAndWordsGoIntoTheNextPlan) {
  BenchShop bench;
  bench.shop_event("limit-set", {{"id", "tight"},
                                 {"check", "shaft-runout"},
                                 {"rank", "family"},
                                 {"upper", "1 thou"},
                                 {"source", "this shop's own experience"}});
  bench.shop_event("step-text-set",
                   {{"step", "deburr"}, {"what_to_do", {{"en", "our way"}, {"es", "a nuestro modo"}}}});
  const std::string number = bench.open_demo("greenhouse-circulator");
  const auto picture = bench.shop().job(number);
  const auto& limit = picture->snapshot.plan.find("shaft-runout")->limits.front();
  EXPECT_EQ(limit.source.obtained, Obtained::shop_rule);
  EXPECT_NEAR(limit.upper->si, 25.4e-6, 1e-12);
  EXPECT_EQ(picture->snapshot.plan.step("deburr")->what_to_do.en, "our way");
}

TEST(ShopJobs, AJobNumberIsUsedOnceAndFitsAnAddress) {
  BenchShop bench;
  bench.open_demo("greenhouse-circulator");
  EXPECT_THROW(bench.open_demo("greenhouse-circulator"), Refused);
  json document = job::testing::demo("greenhouse-circulator");
  document["job"]["number"] = "../etc";
  EXPECT_THROW(
      bench.shop().open_job(
          bench.hand("J.M."),
          {bench.envelope(), json{{"job", document["job"]}, {"make_up", document["make_up"]}}.dump()}),
      BadInput);
  EXPECT_THROW(bench.shop().job("Z-1"), Refused);
}

TEST(ShopJobs, FoundByAnyOfItsNamesAndByItsEarlierBuilds) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  for (const auto* text : {"2117", "heating", "circul", "GH-0043"}) {
    const auto found = bench.shop().search(text, 10);
    ASSERT_EQ(found.size(), 1U) << text;
    EXPECT_EQ(found[0].number, number);
  }
  EXPECT_TRUE(bench.shop().search("orchard", 10).empty());
  EXPECT_EQ(bench.shop().earlier("", "GH-0043").size(), 1U);
}

TEST(ShopJobs, APumpIsRememberedByItsSerialNumberFromTheJobsBeforeThisOne) {
  BenchShop bench;
  bench.open_demo("greenhouse-circulator");
  bench.work_through("greenhouse-circulator");
  bench.open_demo("orchard-wash");
  const auto again = [&](const std::string& number, const std::string& serial) {
    json document = job::testing::demo("greenhouse-circulator");
    document["job"]["number"] = number;
    document["job"]["serial"] = serial;
    return bench.shop().open_job(
        bench.hand("J.M."),
        {bench.envelope(), json{{"job", document["job"]}, {"make_up", document["make_up"]}}.dump()});
  };
  again("G-3001", "GH-0043");
  again("G-3002", "");
  const auto past = bench.shop().past_of("G-3001");
  ASSERT_EQ(past.builds.size(), 1U);
  EXPECT_EQ(past.builds[0].card.number, "G-2117");
  EXPECT_FALSE(past.builds[0].values.empty());
  EXPECT_TRUE(past.now.empty());
  EXPECT_EQ(check_of_series(past.builds[0].values[0].series), past.builds[0].values[0].series.substr(6));
  EXPECT_TRUE(bench.shop().past_of("G-2117").builds.empty());
  EXPECT_TRUE(bench.shop().past_of("G-3002").builds.empty());  // without a serial number nobody knows it
  EXPECT_THROW(bench.shop().past_of("Z-1"), Refused);
}

TEST(ShopJobs, TheIndexMadeAnewEqualsTheOneThatGrew) {
  BenchShop bench;
  for (const auto* name : {"greenhouse-circulator", "orchard-wash", "aquarium-seawater"}) {
    bench.open_demo(name);
    bench.work_through(name);
  }
  const Receipt replaced = [&] {
    json again = job::testing::demo("greenhouse-circulator");
    json reading = job::testing::reading_of(again, "end-float");
    reading["replaces"] = reading["id"];
    reading["id"] = "end-float-again";
    reading["value"] = "5.0";
    return bench.in(bench.hand(reading["actor"]), "G-2117", "reading", reading);
  }();
  EXPECT_EQ(refusal_in(replaced), "");
  const std::string grown = bench.store().index().dump();
  EXPECT_NE(grown.find("end-float-again"), std::string::npos);
  bench.shop().rebuild_index();
  EXPECT_EQ(bench.store().index().dump(), grown);
}

// A reading that comes and is replaced in one request never stands; one before it goes.
TEST(ShopJobs, ReadingsReplacedWithinOneRequestLeaveTheIndexAsItIsMadeAnew) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  bench.work_through("greenhouse-circulator");
  json document = job::testing::demo("greenhouse-circulator");
  const json first = job::testing::reading_of(document, "end-float");
  std::vector<HandedIn> events;
  std::string replaced = first["id"];
  for (const auto* id : {"again-1", "again-2"}) {
    json reading = first;
    reading["replaces"] = replaced;
    reading["id"] = replaced = id;
    events.push_back(bench.envelope("reading", reading));
  }
  EXPECT_EQ(refusal_in(bench.shop().hand_in(bench.hand(first["actor"]), number, events)), "");
  const std::string grown = bench.store().index().dump();
  EXPECT_NE(grown.find("again-2"), std::string::npos);
  EXPECT_EQ(grown.find("again-1"), std::string::npos);
  bench.shop().rebuild_index();
  EXPECT_EQ(bench.store().index().dump(), grown);
}

TEST(ShopJobs, ReadingsSetAsideByANewPlanLeaveTheIndexAsItIsMadeAnew) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  bench.work_through("greenhouse-circulator");
  const std::string before = bench.store().index().dump();
  json make_up = job::testing::demo("greenhouse-circulator")["make_up"];
  make_up["sleeve"] = "none";
  for (const auto* gone : {"sleeve_bore", "sleeve_outside_diameter", "sleeve_length"})
    make_up["dimensions"].erase(gone);
  EXPECT_EQ(refusal_in(bench.in(bench.lead(), number, "make-up-set", {{"make_up", make_up}})), "");
  EXPECT_FALSE(bench.shop().job(number)->logged.set_aside.empty());
  const std::string grown = bench.store().index().dump();
  EXPECT_LT(grown.size(), before.size());
  bench.shop().rebuild_index();
  EXPECT_EQ(bench.store().index().dump(), grown);
}

// What the shop keeps in memory while events come is what it reads from its store after a restart.
TEST(ShopJobs, TheJobThatGrewEqualsTheOneReadFromTheStore) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  bench.work_through("greenhouse-circulator");
  const HandedIn twice = bench.envelope("note", {{"text", "handed in twice at once"}});
  const std::vector<HandedIn> events{bench.envelope("note", {{"text", "the seat was lapped"}}), twice, twice,
                                     bench.envelope("reading", confirmation("r", "no-such-check", "J.M.")),
                                     bench.envelope("waiting", {{"for", "a gasket"}})};
  EXPECT_EQ(bench.shop().hand_in(bench.hand("J.M."), number, events).refused.size(), 1U);
  bench.in(bench.hand("J.M."), number, "note", {{"text", "and tested"}});
  const auto grown = bench.shop().job(number);
  bench.open();
  const auto read = bench.shop().job(number);
  EXPECT_EQ(grown->seq, read->seq);
  EXPECT_EQ(grown->head, read->head);
  EXPECT_EQ(grown->logged.waiting, "a gasket");
  ASSERT_EQ(grown->logged.notes.size(), 3U);
  ASSERT_EQ(read->logged.notes.size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(grown->logged.notes[i].text, read->logged.notes[i].text);
    EXPECT_EQ(grown->logged.notes[i].at, read->logged.notes[i].at);
    EXPECT_FALSE(read->logged.notes[i].at.empty());
  }
  ASSERT_EQ(grown->logged.readings.size(), read->logged.readings.size());
  for (std::size_t i = 0; i < read->logged.readings.size(); ++i) {
    EXPECT_EQ(grown->logged.readings[i].seq, read->logged.readings[i].seq);
    EXPECT_EQ(grown->logged.readings[i].payload, read->logged.readings[i].payload);
  }
}

TEST(ShopJobs, ATriedReadingIsJudgedAndNotKept) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  json document = job::testing::demo("greenhouse-circulator");
  const json reading = job::testing::reading_of(document, "shaft-runout");
  const auto before = bench.shop().job(number)->seq;
  const auto finding = bench.shop().try_reading(bench.hand("J.M."), number, reading.dump()).finding;
  EXPECT_EQ(finding.verdict, Verdict::pass);
  ASSERT_EQ(finding.readings.size(), 1U);
  EXPECT_TRUE(finding.readings[0].sweep);
  EXPECT_EQ(bench.shop().job(number)->seq, before);
  EXPECT_EQ(bench.shop().job(number)->judgement.find("shaft-runout")->verdict, Verdict::not_taken);
}

TEST(ShopJobs, ManyHandsAtOnceLoseNothing) {
  BenchShop bench;
  const std::string number = bench.open_demo("aquarium-seawater");
  std::vector<std::thread> threads;
  for (int t = 0; t < 4; ++t)
    threads.emplace_back([&, t] {
      for (int i = 0; i < 10; ++i) {
        const std::string id = std::to_string(t) + "-" + std::to_string(i);
        const HandedIn event{"many-" + id, static_cast<std::uint64_t>(i), "reading",
                             confirmation(id, "plate-agrees", "J.M.").dump()};
        bench.shop().hand_in(bench.hand("J.M."), number, std::span(&event, 1));
      }
    });
  for (auto& thread : threads)
    thread.join();
  EXPECT_EQ(bench.shop().job(number)->state.standing.at("plate-agrees").size(), 40U);
  EXPECT_FALSE(bench.store().events().verify_stream(job_stream(number)).broken);
}

}  // namespace
}  // namespace pumpwright::shop
