// A small shop on a disk of its own, with people and instruments, for tests.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <memory>

#include <unistd.h>

#include "shop/shop.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::shop::testing {

using nlohmann::json;

inline constexpr const char* lead_password = "a lathe hums at dawn";
inline constexpr const char* other_password = "the register is clean";

class BenchShop {
 public:
  BenchShop() {
    std::string pattern = (std::filesystem::temp_directory_path() / "pumpwright-shop-XXXXXX").string();
    directory_ = ::mkdtemp(pattern.data());
    open();
    lead_ = shop().add_first_person({envelope(), "L.H.", "lead hand", lead_password, Role::lead_hand},
                                    "bench-pc");
    shop().add_person(lead(), {envelope(), "J.M.", "technician", other_password, Role::technician});
    shop().add_person(lead(), {envelope(), "R.S.", "technician", other_password, Role::technician});
    shop().add_person(lead(), {envelope(), "O.F.", "office", other_password, Role::office});
  }
  ~BenchShop() {
    shop_.reset();
    store_.reset();
    std::filesystem::remove_all(directory_);
  }
  BenchShop(const BenchShop&) = delete;
  BenchShop& operator=(const BenchShop&) = delete;

  Shop& shop() { return *shop_; }
  store::Store& store() { return *store_; }
  Hand lead() const { return {lead_, "bench-pc"}; }
  Hand hand(const std::string& id) { return {shop().state()->people.at(id), "tablet-" + id}; }

  HandedIn envelope(const std::string& type = "", const json& payload = json::object()) {
    ++seq_;
    return {"key-" + std::to_string(seq_), seq_, type, payload.dump()};
  }
  Receipt in(const Hand& who, const std::string& number, const std::string& type, const json& payload) {
    const HandedIn event = envelope(type, payload);
    return shop().hand_in(who, number, std::span(&event, 1));
  }
  Receipt shop_event(const std::string& type, const json& payload) {
    const HandedIn event = envelope(type, payload);
    return shop().hand_in_to_shop(lead(), std::span(&event, 1));
  }

  // Gives the shop a demonstration job's instruments and adopted limits, opens the job.
  std::string open_demo(const std::string& name) {
    const json document = job::testing::demo(name);
    for (const auto& instrument : document["shop"]["instruments"])
      if (shop().state()->instruments.count(instrument["id"]) == 0)
        shop_event("instrument-set", {{"instrument", instrument}});
    for (const auto& adopted : document["shop"]["adopted"])
      if (shop().state()->adoptions.count(adopted["limit"]) == 0)
        shop_event("limit-adopted", {{"limit", adopted["limit"]}});
    json header = document["job"];
    return shop().open_job(
        hand("J.M."),
        {envelope(), json{{"job", header}, {"make_up", document["make_up"]}, {"bench", "3"}}.dump()});
  }

  // Hands in the demonstration job's events, each by the person it names. The hands must exist.
  void work_through(const std::string& name, std::size_t count_max = SIZE_MAX) {
    const json document = job::testing::demo(name);
    const std::string number = document["job"]["number"];
    std::size_t count = 0;
    for (const auto& event : document["events"]) {
      if (count++ == count_max) return;
      const Receipt receipt = in(hand(event["actor"]), number, event["event"], event);
      if (!receipt.refused.empty()) std::rethrow_exception(receipt.refused.front().why);
    }
  }

  void open() {
    shop_.reset();
    store_.reset();
    store_ = store::Store::open(directory_ / "shop.db");
    shop_ = std::make_unique<Shop>(
        *store_, Foundations{.catalog_files = {embedded_catalog().begin(), embedded_catalog().end()},
                             .step_files = job::testing::step_files(),
                             .program = "test",
                             .key_file = (directory_ / "shop.key").string(),
                             .now_ms = [] { return std::int64_t{1'795'608'000'000}; },  // 2026-11-25
                             .effort = Effort::brief});
  }

 private:
  std::filesystem::path directory_;
  std::unique_ptr<store::Store> store_;
  std::unique_ptr<Shop> shop_;
  Person lead_;
  std::uint64_t seq_ = 0;
};

// The message of the first refusal in a receipt; empty when all was accepted.
inline std::string refusal_in(const Receipt& receipt) {
  if (receipt.refused.empty()) return "";
  try {
    std::rethrow_exception(receipt.refused.front().why);
  } catch (const std::exception& e) {
    return e.what();
  }
}

}  // namespace pumpwright::shop::testing
