#include <memory>

#include <CLI/CLI.hpp>

#include "cli/align_question.h"
#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/program.h"

namespace pumpwright {
namespace {

struct AlignArguments {
  std::string file;
  bool json = false;
};

Answer run_align(const AlignArguments& a, const Surroundings& surroundings) {
  AlignQuestion question{.file = a.file, .align = {}};
  const std::string bytes = read_input(a.file, json_bytes_max, surroundings.in);
  question.align = naming_file(a.file, [&] { return job::decode_alignment(job::JsonReader::parse(bytes)); });
  const auto finding = naming_file(a.file, [&] { return job::alignment_finding(question.align); });
  return {.text = a.json ? align_json(question, finding) : align_text(question, finding, surroundings.colour),
          .exit_status = finding.verdict == "pass" ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_align_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<AlignArguments>();
  auto* command = add_command(app, "align",
                              "Align two coupled shafts by indicators: offset, angularity, shims and pushes",
                              "pumpwright align docs/examples/align-orchard-two-rims.json");
  is_file(
      *command->add_option("FILE", a->file, "Alignment file (docs/align.schema.json); - for standard input")
           ->required());
  command->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  command->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_align(*a, surroundings); };
  });
}

}  // namespace pumpwright
