// A shop full of tablets against the real server: each signs in, listens to its job, hands in readings for a
// while. Says what it cost, and fails when an event was lost, came twice, or was answered with an error.
#include <exception>
#include <iostream>
#include <string>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "bench/load/load_run.h"

namespace {

using namespace pumpwright::bench;
using Json = nlohmann::ordered_json;

Json json_of(const Spread& spread) {
  return {{"count", spread.count}, {"p50", spread.p50_ms}, {"p99", spread.p99_ms}, {"max", spread.max_ms}};
}

Json json_of(const Machine& machine) {
  return {{"processor", machine.processor},     {"cores", machine.cores},
          {"memory_gib", machine.memory_gib},   {"system", machine.system},
          {"file_system", machine.file_system}, {"load_1min", machine.load_1min},
          {"sync_ms", machine.sync_ms}};
}

Json json_of(const LoadFigures& f, const LoadSetting& setting, const Faults& faults) {
  Json json{{"tablets", f.tablets},
            {"jobs", f.jobs},
            {"think_ms", setting.think.count()},
            {"views", setting.views},
            {"seconds", f.seconds},
            {"events", f.events},
            {"resent", f.resent},
            {"messages", f.messages},
            {"events_per_s", f.events_per_s},
            {"acknowledged_ms", json_of(f.acknowledged)},
            {"seen_ms", json_of(f.seen)},
            {"viewed_ms", json_of(f.viewed)},
            {"peak_resident_mib", f.peak_resident_mib},
            {"server_cores", f.server_cores},
            {"load_cores", f.load_cores},
            {"events_per_transaction", f.events_per_transaction}};
  if (f.plain_events_per_s > 0.0) {
    json["plain_events_per_s"] = f.plain_events_per_s;
    json["ratio"] = f.events_per_s / f.plain_events_per_s;
  }
  json["machine"] = json_of(f.machine);
  json["faults"] = {{"count", faults.count()}, {"first", faults.first()}};
  return json;
}

std::string text_of(const char* what, const Spread& spread) {
  return spread.count == 0 ? ""
                           : fmt::format("  {:<34} p50 {:.1f} ms, p99 {:.1f} ms, longest {:.0f} ms\n", what,
                                         spread.p50_ms, spread.p99_ms, spread.max_ms);
}

std::string text_of(const LoadFigures& f, const Faults& faults) {
  std::string text = fmt::format(
      "{} tablets at {} jobs, {:.1f} s: {} events, {} of them handed in twice, {} messages heard\n"
      "  {:.0f} events/s, {:.1f} in a transaction\n",
      f.tablets, f.jobs, f.seconds, f.events, f.resent, f.messages, f.events_per_s, f.events_per_transaction);
  if (f.plain_events_per_s > 0.0)
    text += fmt::format("  plain SQLite, same rows, as many transactions: {:.0f} rows/s, ratio {:.2f}\n",
                        f.plain_events_per_s, f.events_per_s / f.plain_events_per_s);
  text += text_of("acknowledged after", f.acknowledged);
  text += text_of("seen on the other tablet after", f.seen);
  text += text_of("job read anew in", f.viewed);
  text += fmt::format(
      "  server: at most {:.0f} MiB resident, {:.2f} cores; this program: {:.2f} cores\n"
      "  on {}, {} cores, {:.0f} GiB, {}, {}, a sync takes {:.1f} ms, load before {:.1f}\n",
      f.peak_resident_mib, f.server_cores, f.load_cores, f.machine.processor, f.machine.cores,
      f.machine.memory_gib, f.machine.system, f.machine.file_system, f.machine.sync_ms, f.machine.load_1min);
  for (const auto& fault : faults.first())
    text += "  FAULT: " + fault + "\n";
  return text + fmt::format("  {} faults\n", faults.count());
}

struct Arguments {
  LoadSetting setting;
  std::string program, directory, jobs = "demo";
  long seconds = 60;
  long think_ms = 0;
  bool json = false;
};

void add_options(CLI::App& app, Arguments& a) {
  app.add_option("--program", a.program, "The pumpwright program to load")->required();
  app.add_option("--directory", a.directory,
                 "Directory to make, on the disk that is to be measured; it stays afterwards")
      ->required();
  app.add_option("--demo", a.jobs, "Job files of the demonstration (default demo)");
  app.add_option("--tablets", a.setting.tablets, "Two at each job (default 50)")->check(CLI::Range(1, 80));
  app.add_option("--seconds", a.seconds, "How long they write (default 60)")->check(CLI::Range(1, 600));
  app.add_option("--think-ms", a.think_ms, "Average pause before each reading; 0, the default: none")
      ->check(CLI::Range(0, 60'000));
  app.add_flag("--views", a.setting.views,
               "Each tablet reads its job anew after every change, as the page does");
  app.add_flag("--json", a.json, "Figures as JSON");
}

}  // namespace

// Exit status: 0 nothing was lost or came twice, 1 something did, 2 the load could not be put on.
int main(int count, char** words) {
  Arguments a;
  CLI::App app("Puts a shop full of tablets on a server of its own, and checks that nothing is lost");
  add_options(app, a);
  try {
    app.parse(count, words);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : 2;
  }
  a.setting.program = a.program;
  a.setting.directory = a.directory;
  a.setting.demo_jobs = a.jobs;
  a.setting.duration = std::chrono::seconds(a.seconds);
  a.setting.think = std::chrono::milliseconds(a.think_ms);
  try {
    Faults faults;
    const auto figures = run_load(a.setting, faults);
    std::cout << (a.json ? json_of(figures, a.setting, faults).dump(2) + "\n" : text_of(figures, faults));
    return faults.count() == 0 ? 0 : 1;
  } catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 2;
  }
}
