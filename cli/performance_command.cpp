#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/performance_question.h"
#include "cli/points_file.h"
#include "cli/program.h"
#include "cli/thread_executor.h"

namespace pumpwright {
namespace {

struct PerformanceArguments {
  std::string file;
  std::string samples;
  std::string seed = "1";
  std::string threads;
  bool json = false;
};

Answer run_performance(const PerformanceArguments& a, const Surroundings& surroundings) {
  PerformanceQuestion question;
  question.file = a.file;
  const std::uint64_t seed = whole_number("--seed", a.seed, 0, UINT64_MAX);
  if (!a.samples.empty())
    question.sampling = MonteCarloSettings{whole_number("--samples", a.samples, 1000, 100'000'000), seed};
  const unsigned threads =
      a.threads.empty()
          ? ThreadExecutor::threads_of_this_machine()
          : static_cast<unsigned>(whole_number("--threads", a.threads, 1, ThreadExecutor::threads_max));
  const std::string bytes = with_points_read(a.file, read_input(a.file, json_bytes_max, surroundings.in));
  question.sheet =
      naming_file(a.file, [&] { return job::decode_performance(job::JsonReader::parse(bytes)); });
  ThreadExecutor executor(threads);
  const PerformanceAnswer found = answer(question, executor);
  const auto* agreed = agreed_grade(question.sheet, found.finding);
  const bool well = agreed == nullptr || agreed->verdict == Outcome::pass;
  return {.text = a.json ? performance_json(question, found)
                         : performance_text(question, found, surroundings.colour),
          .exit_status = well ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_performance_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<PerformanceArguments>();
  auto* command =
      add_command(app, "performance", "A pump's performance test: head, efficiency, acceptance, suction head",
                  "pumpwright performance docs/examples/performance-orchard-wash.json --samples 100000");
  is_file(
      *command->add_option("FILE", a->file, "Test file (docs/performance.schema.json); - for standard input")
           ->required());
  command->add_option("--samples", a->samples,
                      "Also draw the chances of acceptance by Monte Carlo: 1000 to 100000000 draws");
  command->add_option(
      "--seed", a->seed,
      "Seed of the random numbers (default 1); the same seed gives the same answer on any number of "
      "threads");
  command->add_option("--threads", a->threads, "Threads to use, 1 to 256 (default: what the machine has)");
  command->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  command->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_performance(*a, surroundings); };
  });
}

}  // namespace pumpwright
