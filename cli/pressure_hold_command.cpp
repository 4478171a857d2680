#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/pressure_hold_question.h"
#include "cli/program.h"

namespace pumpwright {
namespace {

struct PressureHoldArguments {
  std::string file;
  bool json = false;
};

Answer run_pressure_hold(const PressureHoldArguments& a, const Surroundings& surroundings) {
  PressureHoldQuestion question;
  question.file = a.file;
  const std::string bytes = read_input(a.file, json_bytes_max, surroundings.in);
  question.sheet =
      naming_file(a.file, [&] { return job::decode_pressure_hold(job::JsonReader::parse(bytes)); });
  const auto finding = naming_file(a.file, [&] { return job::pressure_hold_finding(question.sheet); });
  return {.text = a.json ? pressure_hold_json(question, finding)
                         : pressure_hold_text(question, finding, surroundings.colour),
          .exit_status = finding.outcome == Outcome::pass ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_pressure_hold_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<PressureHoldArguments>();
  auto* command =
      add_command(app, "pressure-hold", "A casing held under pressure: how high, how long, and what leaked",
                  "pumpwright pressure-hold docs/examples/pressure-hold-greenhouse.json");
  is_file(
      *command
           ->add_option("FILE", a->file, "Test file (docs/pressure-hold.schema.json); - for standard input")
           ->required());
  command->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  command->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_pressure_hold(*a, surroundings); };
  });
}

}  // namespace pumpwright
