// `pumpwright seal`: the job's own conditions or others tried in their place.
#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/job_wording.h"
#include "cli/program.h"
#include "cli/seal_report.h"

namespace pumpwright {
namespace {

struct SealArguments {
  std::string file;
  job::TriedConditions tried;
  std::string language = "en";
  std::string catalog;
  bool json = false;
};

Answer run_seal(const SealArguments& a, const Surroundings& surroundings) {
  const CatalogFiles files(a.catalog);
  const auto session = open_job(a.file, files, surroundings.in);
  const auto language = language_of(a.language);
  const auto state = judged(session, session.snapshot).state;
  const auto question = job::ask_of_seal(a.tried, session.snapshot, "--");
  const auto finding = job::find_of_seal(question, state);
  return {.text = a.json ? seal_json(session, question, finding, language)
                         : seal_text(session, question, finding, language, surroundings.colour),
          .exit_status = finding.verdict == job::Verdict::pass ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_seal_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<SealArguments>();
  auto* seal = add_command(
      app, "seal", "Will this job's seal live in its service? One sheet, and other conditions at once",
      "pumpwright seal job.json --temperature \"95 degC\" --altitude \"1600 m\"");
  is_file(*seal->add_option("JOB", a->file,
                            "Job file (docs/job.schema.json) or record of a shop; - for standard input")
               ->required());
  seal->add_option("--temperature", a->tried.temperature, "Try this temperature of the liquid");
  seal->add_option("--suction", a->tried.suction, "Try this suction pressure: \"12 psig\"");
  seal->add_option("--head", a->tried.head,
                   "Try this rise of pressure from suction to discharge: \"56 psi\"");
  seal->add_option("--speed", a->tried.speed, "Try this speed");
  seal->add_option("--altitude", a->tried.altitude,
                   "Try this altitude of the site: boiling goes by absolute pressure");
  seal->add_option("--length", a->tried.length, "Try this working length in place of the measured one");
  add_choice(*seal, "--language", a->language, {"en", "es"}, "Language of the text (default en)");
  add_catalog_option(*seal, a->catalog);
  seal->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  seal->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_seal(*a, surroundings); };
  });
}

}  // namespace pumpwright
