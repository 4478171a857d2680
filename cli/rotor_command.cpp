#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/program.h"
#include "cli/rotor_report.h"

namespace pumpwright {
namespace {

struct RotorArguments {
  std::string file;
  bool json = false;
};

Answer run_rotor(const RotorArguments& a, const Surroundings& surroundings) {
  const std::string bytes = read_input(a.file, json_bytes_max, surroundings.in);
  const job::RotorSheet file =
      naming_file(a.file, [&] { return job::decode_rotor(job::JsonReader::parse(bytes)); });
  const rotor::RotorAssessment finding = naming_file(a.file, [&] { return rotor::assess(file.pump); });
  const bool well = std::all_of(finding.verdicts.begin(), finding.verdicts.end(),
                                [](const rotor::RotorVerdict& v) { return v.outcome == Outcome::pass; });
  return {.text = a.json ? rotor_json(a.file, file, finding)
                         : rotor_text(a.file, file, finding, surroundings.colour),
          .exit_status = well ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_rotor_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<RotorArguments>();
  auto* rotor = add_command(
      app, "rotor", "Is the shaft stiff enough? Deflection at the seal, bearing lives, critical speeds",
      "pumpwright rotor docs/examples/rotor-orchard-wash.json");
  is_file(*rotor->add_option("ROTOR", a->file, "Rotor file (docs/rotor.schema.json); - for standard input")
               ->required());
  rotor->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  rotor->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_rotor(*a, surroundings); };
  });
}

}  // namespace pumpwright
