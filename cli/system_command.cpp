#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/program.h"
#include "cli/system_question.h"

namespace pumpwright {
namespace {

struct SystemArguments {
  std::string file;
  bool json = false;
};

Answer run_system(const SystemArguments& a, const Surroundings& surroundings) {
  SystemQuestion question;
  question.file = a.file;
  const std::string bytes = read_input(a.file, json_bytes_max, surroundings.in);
  question.sheet = naming_file(a.file, [&] { return job::decode_system(job::JsonReader::parse(bytes)); });
  const auto finding = naming_file(a.file, [&] { return job::system_finding(question.sheet); });
  return {
      .text = a.json ? system_json(question, finding) : system_text(question, finding, surroundings.colour),
      .exit_status = finding.outcome == Outcome::pass ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_system_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<SystemArguments>();
  auto* command = add_command(app, "system", "Where pump and plant meet, and how hard the motor works there",
                              "pumpwright system docs/examples/system-greenhouse.json");
  is_file(*command->add_option("FILE", a->file, "System file (docs/system.schema.json); - for standard input")
               ->required());
  command->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  command->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_system(*a, surroundings); };
  });
}

}  // namespace pumpwright
