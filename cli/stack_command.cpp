#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/program.h"
#include "cli/stack_question.h"
#include "cli/thread_executor.h"

namespace pumpwright {
namespace {

struct StackArguments {
  std::string file;
  std::string samples = "1000000";
  std::string seed = "1";
  std::string threads;
  bool json = false;
};

Answer run_stack(const StackArguments& a, const Surroundings& surroundings) {
  StackQuestion question;
  question.file = a.file;
  question.settings.samples = whole_number("--samples", a.samples, 1000, 200'000'000);
  question.settings.seed = whole_number("--seed", a.seed, 0, UINT64_MAX);
  const unsigned threads =
      a.threads.empty()
          ? ThreadExecutor::threads_of_this_machine()
          : static_cast<unsigned>(whole_number("--threads", a.threads, 1, ThreadExecutor::threads_max));
  const std::string bytes = read_input(a.file, json_bytes_max, surroundings.in);
  question.chain = naming_file(a.file, [&] { return decode_chain_file(bytes); });
  ThreadExecutor executor(threads);
  const auto finding = answer(question, executor);
  const bool well = finding.verdict.word.empty() || finding.verdict.word == "pass";
  return {.text = a.json ? stack_json(question, finding) : stack_text(question, finding, surroundings.colour),
          .exit_status = well ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_stack_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<StackArguments>();
  auto* stack =
      add_command(app, "stack", "Add up a dimension chain: worst case, root sum of squares, Monte Carlo",
                  "pumpwright stack docs/examples/seal-working-length.json --samples 1000000 --seed 1");
  is_file(*stack->add_option("CHAIN", a->file, "Chain file (docs/chain.schema.json); - for standard input")
               ->required());
  stack->add_option("--samples", a->samples, "Builds to sample, 1000 to 200000000 (default 1000000)");
  stack->add_option("--seed", a->seed,
                    "Seed of the random numbers (default 1); the same seed gives the same "
                    "answer on any number of threads");
  stack->add_option("--threads", a->threads, "Threads to use, 1 to 256 (default: what the machine has)");
  stack->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  stack->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_stack(*a, surroundings); };
  });
}

}  // namespace pumpwright
