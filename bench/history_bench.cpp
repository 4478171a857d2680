// What a shop of 200,000 jobs takes to remember: the past of one pump with 3 and with 10 earlier builds, each
// worked through as the demonstration job is, the lives of all builds with seven readings each, and what the
// returns page asks of them: everything between the request and the bytes of its answer. Beside it the search
// by serial number alone, which the past begins with. `history_bench [DIRECTORY]`: where the store is made
// (default a temporary one; what is measured are reads, so the disk counts little once the pages are in
// memory).
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <thread>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <unistd.h>

#include "catalog/embedded.h"
#include "server/returns_view.h"
#include "shop/job_index.h"
#include "shop/shop.h"

namespace {

using namespace pumpwright;
using nlohmann::json;
using Clock = std::chrono::steady_clock;

constexpr int other_jobs = 200'000;
constexpr int builds_a_pump = 3;
constexpr std::int64_t now_ms = 1'795'608'000'000;
constexpr std::int64_t middle_s = 1'562'000'000;  // in July 2019: half of the builds went out before
constexpr const char* password = "a lathe hums at dawn";

std::string stream_of(int i) {
  return fmt::format("job/X-{}", i);
}

shop::JobCard card_of(int i) {
  const int day = i / 200;  // 200 jobs a day
  shop::JobCard card;
  card.number = fmt::format("X-{}", i);
  card.customer = "greenhouse heating loop (invented)";
  card.pump = fmt::format("circulator {}", i % 12);
  card.serial = fmt::format("SN{:06d}", i % (other_jobs / builds_a_pump));
  card.released = true;
  card.opened =
      fmt::format("20{:02d}-{:02d}-{:02d}T08:00:00Z", 18 + day / 336, day / 28 % 12 + 1, day % 28 + 1);
  card.released_at = card.opened.substr(0, 11) + "16:00:00Z";
  card.last_at = card.opened.substr(0, 11) + "16:00:00.000Z";
  card.last_actor = "L.H.";
  // A third of the returns were for something else; the sweep of a pump says nothing of when it came back.
  card.came_for = i % 3 == 0 ? job::CameFor::other : job::CameFor::fault;
  card.seal = fmt::format("elastomer-bellows, {}", i % 2 == 0 ? "EPDM" : "FKM");
  for (const auto check : shop::checks_of_lives)
    card.readings.emplace(check, 1e-6 * (20 + i * 7919 % 90));
  return card;
}

store::StreamIndex index_of(int i) {
  store::StreamIndex out{shop::entry_of(card_of(i)), {}};
  for (const auto check : shop::checks_of_lives)
    out.values.push_back({stream_of(i), shop::series_of(check), card_of(i).opened, "r1",
                          card_of(i).readings.at(std::string(check)), "{}"});
  return out;
}

void fill(store::Store& store) {
  constexpr int threads = 64;
  std::vector<std::thread> running;
  for (int t = 0; t < threads; ++t)
    running.emplace_back([&store, t] {
      for (int i = t; i < other_jobs; i += threads) {
        store::Append append;
        append.stream = stream_of(i);
        append.events = {{"opened", "L.H.", "bench-pc", 1, fmt::format("k{}", i), "{}"}};
        if (!std::holds_alternative<store::Appended>(store.events().append(append))) std::abort();
      }
    });
  for (auto& thread : running)
    thread.join();
  store.index().rebuild([](const std::string& stream) {
    return stream.starts_with("job/X-") ? index_of(std::atoi(stream.c_str() + 6)) : store::StreamIndex{};
  });
}

json demo_job() {
  std::ifstream file(std::string(PUMPWRIGHT_SOURCE_DIR) + "/demo/greenhouse-circulator.json");
  return json::parse(file);
}

class Bench {
 public:
  explicit Bench(store::Store& store, const std::filesystem::path& directory)
      : store_(store),
        demo_(demo_job()),
        shop_(store, {.catalog_files = {embedded_catalog().begin(), embedded_catalog().end()},
                      .step_files = files_under(embedded_catalog(), "steps/"),
                      .program = "bench",
                      .key_file = (directory / "shop.key").string(),
                      .now_ms = [] { return now_ms; },
                      .effort = shop::Effort::brief}) {
    lead_ = shop_.add_first_person({envelope("", {}), "L.H.", "lead hand", password, shop::Role::lead_hand},
                                   "pc");
    for (const char* id : {"J.M.", "R.S."})
      shop_.add_person(hand("L.H."), {envelope("", {}), id, id, password, shop::Role::technician});
    for (const auto& instrument : demo_["shop"]["instruments"])
      in_shop("instrument-set", {{"instrument", instrument}});
    for (const auto& adopted : demo_["shop"]["adopted"])
      in_shop("limit-adopted", {{"limit", adopted["limit"]}});
  }

  void work_through(const std::string& number) {
    json header = demo_["job"];
    header["number"] = number;
    shop_.open_job(hand("J.M."),
                   {envelope("", {}), json{{"job", header}, {"make_up", demo_["make_up"]}}.dump()});
    for (const auto& event : demo_["events"]) {
      const auto handed = envelope(event["event"], event);
      const auto receipt = shop_.hand_in(hand(event["actor"]), number, std::span(&handed, 1));
      if (!receipt.refused.empty()) std::rethrow_exception(receipt.refused.front().why);
    }
  }

  void measure() {
    report("past of a pump, 3 earlier builds", [&] { return shop_.past_of("G-4003").builds.size(); });
    report("past of a pump, 10 earlier builds", [&] { return shop_.past_of("G-4010").builds.size(); });
    report("search of its serial number alone", [&] { return shop_.earlier("", "GH-0043").size(); });
    report_once("lives of all builds, read from the store for the first time", [&] { return lives(); });
    report("lives of all builds after that", [&] { return lives(); });
    report("lives of all builds as CSV, bytes", [&] { return shop::lives_csv(shop_.lives().lives).size(); });
    report("returns page: all builds", [&] { return returns({}); });
    report("returns page: by pump family (12 groups)",
           [&] { return returns({.by = shop::BuildTrait::pump}); });
    report("returns page: before and after a day", [&] { return returns({.changed_at_s = middle_s}); });
    report("returns page: two readings of the build", [&] {
      return returns({.checks = {"impeller-sweep", "end-float"}});
    });
  }

 private:
  std::size_t lives() const { return shop_.lives().lives.size(); }
  std::size_t returns(const shop::ReturnsAsked& asked) const {
    return server::returns_view(shop_.lives().lives, asked).dump().size();
  }

  template <class Work>
  static void report_once(const char* what, Work work) {
    const auto start = Clock::now();
    const std::size_t answer = work();
    fmt::print("{}: {:.1f} ms (answer {})\n", what,
               1e3 * std::chrono::duration<double>(Clock::now() - start).count(), answer);
  }

  template <class Work>
  static void report(const char* what, Work work) {
    std::vector<double> ms;
    std::size_t answer = 0;
    for (int i = 0; i < 15; ++i) {
      const auto start = Clock::now();
      answer = work();
      ms.push_back(1e3 * std::chrono::duration<double>(Clock::now() - start).count());
    }
    std::sort(ms.begin(), ms.end());
    fmt::print("{}: middle {:.1f} ms, shortest {:.1f} ms of {} (answer {})\n", what, ms[ms.size() / 2],
               ms.front(), ms.size(), answer);
  }

  shop::Hand hand(const std::string& id) { return {shop_.state()->people.at(id), "tablet"}; }
  shop::HandedIn envelope(const std::string& type, const json& payload) {
    ++seq_;
    return {"key-" + std::to_string(seq_), seq_, type, payload.dump()};
  }
  void in_shop(const std::string& type, const json& payload) {
    const auto handed = envelope(type, payload);
    const auto receipt = shop_.hand_in_to_shop(hand("L.H."), std::span(&handed, 1));
    if (!receipt.refused.empty()) std::rethrow_exception(receipt.refused.front().why);
  }

  store::Store& store_;
  json demo_;
  std::uint64_t seq_ = 0;
  shop::Shop shop_;
  shop::Person lead_;
};

}  // namespace

int main(int count, char** arguments) {
  std::filesystem::path directory = count > 1 ? arguments[1] : std::filesystem::temp_directory_path();
  directory /= fmt::format("pumpwright-history-{}", ::getpid());
  std::filesystem::create_directories(directory);
  {
    const auto store = store::Store::open(directory / "shop.db");
    fill(*store);
    Bench bench(*store, directory);
    for (int i = 0; i <= 10; ++i)
      bench.work_through(fmt::format("G-{}", 4000 + i));
    fmt::print("{} jobs\n", other_jobs + 11);
    bench.measure();
  }
  std::filesystem::remove_all(directory);
}
