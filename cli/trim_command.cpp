#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/points_file.h"
#include "cli/program.h"
#include "cli/trim_question.h"

namespace pumpwright {
namespace {

struct TrimArguments {
  std::string file;
  bool json = false;
};

Answer run_trim(const TrimArguments& a, const Surroundings& surroundings) {
  TrimQuestion question;
  question.file = a.file;
  const std::string bytes = with_points_read(a.file, read_input(a.file, json_bytes_max, surroundings.in));
  question.sheet = naming_file(a.file, [&] { return decode_trim_file(bytes); });
  const auto finding = answer(question);
  return {.text = a.json ? trim_report_json(question, finding)
                         : trim_text(question, finding, surroundings.colour),
          .exit_status = finding.advice == TrimAdvice::cut ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_trim_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<TrimArguments>();
  auto* command = add_command(app, "trim", "How far to cut an impeller for a duty, in safe steps",
                              "pumpwright trim docs/examples/trim-aquarium-seawater.json");
  is_file(*command->add_option("FILE", a->file, "Trim file (docs/trim.schema.json); - for standard input")
               ->required());
  command->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  command->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_trim(*a, surroundings); };
  });
}

}  // namespace pumpwright
