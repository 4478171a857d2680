#include "bench/load/load_run.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <map>
#include <memory>
#include <random>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <sys/resource.h>

#include "bench/load/shop_process.h"
#include "bench/load/store_check.h"
#include "bench/load/tablet.h"
#include "bench/plain_sqlite.h"

namespace pumpwright::bench {
namespace {

namespace asio = boost::asio;
using nlohmann::json;
using Json = nlohmann::ordered_json;

// The technicians of the demonstration shop, with their public passwords.
const std::array<Person, 2> technicians{
    {{"J.M.", "clean faces run dry never"}, {"R.S.", "count the turns of the nut"}}};
constexpr const char* job_of_the_load = "greenhouse-circulator.json";
constexpr std::size_t tablets_at_a_job = 2;
constexpr unsigned resend_every = 20;
constexpr std::chrono::seconds finish_time{60};       // for answers and messages that are on their way
constexpr std::chrono::milliseconds quiet_time{500};  // in which a doubled message would still come

double own_cpu_seconds() {
  rusage usage{};
  ::getrusage(RUSAGE_SELF, &usage);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

Spread spread_of(std::vector<double> seconds) {
  if (seconds.empty()) return {};
  std::sort(seconds.begin(), seconds.end());
  const auto at = [&](double share) {
    return 1e3 * seconds[static_cast<std::size_t>(share * static_cast<double>(seconds.size() - 1))];
  };
  return {.count = seconds.size(), .p50_ms = at(0.5), .p99_ms = at(0.99), .max_ms = at(1.0)};
}

// The readings with an instrument of a demonstration job, as its people wrote them.
std::vector<Json> readings_of(const Json& document) {
  std::vector<Json> readings;
  for (auto event : document["events"]) {
    if (event["event"] != "reading" || !event.contains("instrument")) continue;
    event.erase("replaces");
    readings.push_back(std::move(event));
  }
  return readings;
}

// Runs the context until `done` or the deadline; true when it was done.
template <class Done>
bool run_until(asio::io_context& io, Clock::time_point deadline, const Done& done) {
  io.restart();
  while (!done() && Clock::now() < deadline)
    io.run_one_for(std::chrono::milliseconds(20));
  return done();
}

class Load {
 public:
  Load(const LoadSetting& setting, Faults& faults)
      : setting_(setting),
        faults_(faults),
        run_(fmt::format("{:08x}", std::random_device{}())),
        shop_({setting.program, setting.directory, setting.demo_jobs}),
        server_(asio::ip::make_address("127.0.0.1"), shop_.port()) {
    std::ifstream in(setting.demo_jobs / job_of_the_load);
    document_ = Json::parse(in);
    readings_ = readings_of(document_);
  }

  LoadFigures run() {
    figures_.machine = describe_machine(setting_.directory);
    open_jobs();
    seat_tablets();
    write();
    settle();
    figures_.peak_resident_mib = shop_.peak_resident_mib();
    for (auto& tablet : tablets_)
      tablet->close();
    if (const int status = shop_.stop(); status != 0)
      faults_.add(fmt::format("the server ended with status {}", status));
    compare();
    return figures_;
  }

 private:
  void open_jobs() {
    auto visitor = signed_in(io_, server_, technicians.front());
    Exchange office(io_, visitor);
    figures_.jobs = (setting_.tablets + tablets_at_a_job - 1) / tablets_at_a_job;
    for (std::size_t i = 0; i < figures_.jobs; ++i) {
      const auto number = fmt::format("L-{:04}", i + 1);
      Json header = document_["job"];
      header.erase("opened");
      header["number"] = number;
      const Json body{{"key", fmt::format("{}-open-{}", run_, i)},
                      {"device", "office"},
                      {"device_seq", i + 1},
                      {"job", header},
                      {"make_up", document_["make_up"]},
                      {"bench", std::to_string(i + 1)}};
      const auto opened = office.ask_now({"POST", "/api/jobs", body.dump()});
      const auto view = office.ask_now({"GET", "/api/jobs/" + number, ""});
      if (opened.status != 201 || view.status != 200)
        throw std::runtime_error("a job was not opened: " + opened.body.substr(0, 300));
      jobs_.push_back({number, json::parse(view.body)["seq"]});
    }
  }

  void seat_tablets() {
    for (std::size_t i = 0; i < setting_.tablets; ++i) {
      const auto& person = technicians[i % technicians.size()];
      const auto& job = jobs_[i / tablets_at_a_job];
      const TabletSetting seat{.writer = {.device = fmt::format("tablet-{:02}", i + 1),
                                          .actor = person.id,
                                          .job = job.job,
                                          .key_prefix = fmt::format("{}-{}", run_, i + 1),
                                          .readings = &readings_,
                                          .first_reading = i,
                                          .think = setting_.think,
                                          .resend_every = resend_every,
                                          .seed = static_cast<unsigned>(i + 1)},
                               .after = job.seq,
                               .views = setting_.views};
      tablets_.push_back(std::make_unique<Tablet>(io_, signed_in(io_, server_, person), seat, faults_));
    }
    for (auto& tablet : tablets_)
      tablet->listener().listen();
    const auto all_listen = [this] { return all([](Tablet& t) { return t.listener().listens(); }); };
    if (!run_until(io_, Clock::now() + finish_time, all_listen))
      throw std::runtime_error("not every tablet could listen");
  }

  void write() {
    const auto transactions_before = shop_.transactions();
    const double server_before = shop_.cpu_seconds();
    const double own_before = own_cpu_seconds();
    const auto start = Clock::now();
    const auto end = start + setting_.duration;
    for (auto& tablet : tablets_)
      tablet->writer().write_until(end);
    const auto all_written = [this] { return all([](Tablet& t) { return t.writer().finished(); }); };
    if (!run_until(io_, end + finish_time, all_written)) faults_.add("a reading was never answered");
    figures_.seconds = std::chrono::duration<double>(Clock::now() - start).count();
    figures_.server_cores = (shop_.cpu_seconds() - server_before) / figures_.seconds;
    figures_.load_cores = (own_cpu_seconds() - own_before) / figures_.seconds;
    transactions_ = shop_.transactions() - transactions_before;
  }

  // Until every tablet has heard of the last event of its job and looked at it, and a little longer.
  void settle() {
    std::map<std::string, std::uint64_t> last;
    for (const auto& job : jobs_)
      last[job.job] = job.seq;
    for (auto& tablet : tablets_)
      for (const auto& event : tablet->writer().acknowledged())
        last[tablet->writer().setting().job] = std::max(last[tablet->writer().setting().job], event.seq);
    const auto all_heard = [&] {
      return all([&](Tablet& t) {
        return t.idle() && t.listener().last_seq() >= last.at(t.writer().setting().job);
      });
    };
    if (!run_until(io_, Clock::now() + finish_time, all_heard))
      faults_.add("not every tablet heard of the last event of its job");
    run_until(io_, Clock::now() + quiet_time, [] { return false; });
    for (auto& tablet : tablets_)
      check_heard(*tablet, last.at(tablet->writer().setting().job));
  }

  // Every event of the job from the load's first to its last, each once, in order.
  void check_heard(Tablet& tablet, std::uint64_t last) {
    const auto& listener = tablet.listener();
    auto next = listener.setting().after + 1;
    for (const auto& heard : listener.heard()) {
      if (heard.seq != next)
        faults_.add(fmt::format("{} heard event {} of {} where {} was due", listener.setting().device,
                                heard.seq, listener.setting().job, next));
      next = heard.seq + 1;
    }
    if (next != last + 1)
      faults_.add(fmt::format("{} heard up to event {} of {}, not {}", listener.setting().device, next - 1,
                              listener.setting().job, last));
    figures_.messages += listener.heard().size();
  }

  void compare() {
    std::vector<Told> told;
    for (auto& tablet : tablets_)
      told.push_back({tablet->writer().setting().job, tablet->writer().setting().device,
                      tablet->writer().acknowledged()});
    const auto rows = check_store(shop_.store_file(), jobs_, told, faults_);
    figures_.tablets = setting_.tablets;
    measure_latencies();
    figures_.events = rows.size();
    figures_.events_per_s = static_cast<double>(rows.size()) / figures_.seconds;
    if (transactions_ == 0 || rows.empty()) return faults_.add("nothing was written");
    figures_.events_per_transaction = static_cast<double>(rows.size()) / static_cast<double>(transactions_);
    // With pauses the tablets set the pace, not the store.
    if (setting_.think.count() == 0) figures_.plain_events_per_s = plain_events_per_s(rows);
  }

  void measure_latencies() {
    std::vector<double> acknowledged, seen, viewed;
    struct Sent {
      Clock::time_point at;
      const Tablet* by = nullptr;
    };
    std::map<std::pair<std::string, std::uint64_t>, Sent> sent;
    for (auto& tablet : tablets_) {
      for (const auto& event : tablet->writer().acknowledged()) {
        sent[{tablet->writer().setting().job, event.seq}] = {event.sent, tablet.get()};
        if (event.device_seq != 0)
          acknowledged.push_back(std::chrono::duration<double>(event.answered - event.sent).count());
      }
      figures_.resent += tablet->writer().resent();
      viewed.insert(viewed.end(), tablet->view_seconds().begin(), tablet->view_seconds().end());
    }
    for (auto& tablet : tablets_)
      for (const auto& heard : tablet->listener().heard()) {
        const auto found = sent.find({tablet->listener().setting().job, heard.seq});
        if (found != sent.end() && found->second.by != tablet.get())
          seen.push_back(std::chrono::duration<double>(heard.at - found->second.at).count());
      }
    figures_.acknowledged = spread_of(std::move(acknowledged));
    figures_.seen = spread_of(std::move(seen));
    figures_.viewed = spread_of(std::move(viewed));
  }

  // As many transactions as the server made, the rows spread evenly over them.
  double plain_events_per_s(const std::vector<store::StoredEvent>& rows) const {
    std::vector<std::size_t> sizes;
    std::size_t before = 0;
    for (std::size_t i = 1; i <= transactions_; ++i) {
      const std::size_t until = rows.size() * i / transactions_;
      if (until > before) sizes.push_back(until - before);
      before = until;
    }
    return plain_rows_per_s(setting_.directory / "plain.sqlite", {.rows = rows, .transactions = sizes});
  }

  template <class Is>
  bool all(const Is& is) {
    return std::all_of(tablets_.begin(), tablets_.end(), [&](auto& tablet) { return is(*tablet); });
  }

  const LoadSetting& setting_;
  Faults& faults_;
  std::string run_;  // makes this run's keys its own
  ShopProcess shop_;
  asio::ip::tcp::endpoint server_;
  asio::io_context io_{1};
  Json document_;
  std::vector<Json> readings_;
  std::vector<JobStart> jobs_;
  std::vector<std::unique_ptr<Tablet>> tablets_;
  std::size_t transactions_ = 0;
  LoadFigures figures_;
};

}  // namespace

LoadFigures run_load(const LoadSetting& setting, Faults& faults) {
  if (std::filesystem::exists(setting.directory))
    throw std::runtime_error(setting.directory.string() + " is there already");
  return Load(setting, faults).run();
}

}  // namespace pumpwright::bench
