#include "cli/demo_shop.h"

#include <algorithm>
#include <span>

#include <nlohmann/json.hpp>

#include "cli/input_file.h"
#include "cli/shop_files.h"
#include "job/job_file.h"
#include "shop/old_table.h"

namespace pumpwright {
namespace {

using nlohmann::json;

constexpr const char* device = "demonstration";

// The shop's clock while the past is written down.
class PastClock {
 public:
  std::int64_t now_ms() const { return now_ms_; }
  void at(const std::string& utc) {
    now_ms_ = std::max(now_ms_, job::parse_utc_time(utc, "time").seconds * 1000);
  }

 private:
  std::int64_t now_ms_ = 0;
};

class Filling {
 public:
  Filling(shop::Shop& shop, PastClock& clock) : shop_(shop), clock_(clock) {}

  void hire() {
    for (const auto& p : demo_people()) {
      const shop::NewPerson wanted{envelope("", json::object()), p.id, p.name, p.password,
                                   *shop::role_from(p.role)};
      if (!shop_.has_people())
        shop_.add_first_person(wanted, device);
      else
        check(shop_.add_person(lead(), wanted));
    }
    change("shop-named", {{"name", "Demonstration pump shop"}, {"invented", true}});
  }

  void take_over(const json& document, const std::string& bench) {
    equip(document["shop"]);
    const std::string opened = document["job"]["opened"];
    clock_.at(opened);
    const std::string first_actor =
        document["events"].empty() ? "L.H." : document["events"][0]["actor"].get<std::string>();
    const json payload{{"job", document["job"]}, {"make_up", document["make_up"]}, {"bench", bench}};
    const std::string number =
        shop_.open_job(hand(first_actor), {envelope("", json::object()), payload.dump()});
    for (const auto& event : document["events"]) {
      clock_.at(event["time"]);
      const shop::HandedIn handed = envelope(event["event"], event);
      check(shop_.hand_in(hand(event["actor"]), number, std::span(&handed, 1)));
    }
  }

  void take_over_old(const std::string& columns, const shop::OldTable& table) {
    change("old-columns-set", {{"name", "the old book"}, {"columns", json::parse(columns)}});
    shop_.take_old_jobs(lead(), table.jobs);
  }

 private:
  shop::HandedIn envelope(const std::string& type, const json& payload) {
    ++seq_;
    return {"demonstration-" + std::to_string(seq_), seq_, type, payload.dump()};
  }
  shop::Hand hand(const std::string& id) const { return {shop_.state()->people.at(id), device}; }
  shop::Hand lead() const { return hand(demo_people().front().id); }

  void change(const std::string& type, const json& payload) {
    const shop::HandedIn event = envelope(type, payload);
    check(shop_.hand_in_to_shop(lead(), std::span(&event, 1)));
  }

  void equip(const json& shop) {
    for (const auto& instrument : shop["instruments"])
      if (shop_.state()->instruments.count(instrument["id"]) == 0)
        change("instrument-set", {{"instrument", instrument}});
    for (const auto& adopted : shop["adopted"]) {
      if (shop_.state()->adoptions.count(adopted["limit"]) != 0) continue;
      change("limit-adopted", {{"limit", adopted["limit"]}});
    }
  }

  static void check(const shop::Receipt& receipt) {
    if (!receipt.refused.empty()) std::rethrow_exception(receipt.refused.front().why);
  }

  shop::Shop& shop_;
  PastClock& clock_;
  std::uint64_t seq_ = 0;
};

// The jobs in the order they came in.
std::vector<json> documents_in(const std::string& jobs) {
  std::vector<json> out;
  for (const auto& file : read_tree(jobs, ".json", "--jobs")) {
    naming_file(file.name, [&] { return job::decode_job_file(file.bytes); });
    out.push_back(json::parse(file.bytes));
  }
  std::sort(out.begin(), out.end(),
            [](const json& a, const json& b) { return a["job"]["opened"] < b["job"]["opened"]; });
  return out;
}

// What the shop wrote down before it had this program: "ledger.csv" and what its columns mean.
void take_ledger(Filling& filling, const std::string& jobs, std::int64_t now_s) {
  const auto tables = read_tree(jobs, ".csv", "--jobs"), columns = read_tree(jobs, ".columns", "--jobs");
  for (std::size_t i = 0; i < std::min(tables.size(), columns.size()); ++i) {
    const auto meaning = naming_file(
        columns[i].name, [&] { return shop::decode_old_columns(job::JsonReader::parse(columns[i].bytes)); });
    filling.take_over_old(columns[i].bytes, naming_file(tables[i].name, [&] {
                            return shop::read_old_csv(tables[i].bytes, tables[i].name, meaning,
                                                      job::UtcTime{now_s});
                          }));
  }
}

}  // namespace

const std::vector<DemoPerson>& demo_people() {
  static const std::vector<DemoPerson> people{
      {"L.H.", "lead hand", "lead-hand", "steady hands at the lathe"},
      {"J.M.", "technician, bench 3", "technician", "clean faces run dry never"},
      {"R.S.", "technician, bench 1", "technician", "count the turns of the nut"},
      {"O.F.", "office", "office", "every pump has its paper"}};
  return people;
}

bool fill_demo_shop(const std::string& data, const std::string& jobs) {
  const auto documents = documents_in(jobs);
  PastClock clock;
  clock.at("2026-01-05T08:00:00Z");
  const OpenShop open = make_shop(
      data, [&clock] { return clock.now_ms(); }, shop::Effort::brief);
  if (open.shop->has_people()) return false;
  Filling filling(*open.shop, clock);
  filling.hire();
  int bench = 0;
  for (const auto& document : documents)
    filling.take_over(document, std::to_string(++bench));
  take_ledger(filling, jobs, clock.now_ms() / 1000);
  return true;
}

}  // namespace pumpwright
