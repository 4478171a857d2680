#include <memory>

#include <CLI/CLI.hpp>

#include "cli/balance_question.h"
#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/program.h"

namespace pumpwright {
namespace {

struct BalanceArguments {
  std::string file;
  bool json = false;
};

Answer run_balance(const BalanceArguments& a, const Surroundings& surroundings) {
  BalanceQuestion question{.file = a.file, .balance = {}};
  const std::string bytes = read_input(a.file, json_bytes_max, surroundings.in);
  question.balance = naming_file(a.file, [&] { return job::decode_balance(job::JsonReader::parse(bytes)); });
  const auto finding = naming_file(a.file, [&] { return job::balance_finding(question.balance); });
  const bool well = finding.verdict.empty() || finding.verdict == "pass";
  return {
      .text = a.json ? balance_json(question, finding) : balance_text(question, finding, surroundings.colour),
      .exit_status = well ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_balance_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<BalanceArguments>();
  auto* command = add_command(app, "balance",
                              "Balance a rotor in one or two planes from trial runs, and judge what is left",
                              "pumpwright balance docs/examples/balance-orchard-impeller.json");
  is_file(
      *command->add_option("FILE", a->file, "Balance file (docs/balance.schema.json); - for standard input")
           ->required());
  command->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  command->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_balance(*a, surroundings); };
  });
}

}  // namespace pumpwright
