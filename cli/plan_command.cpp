#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/job_session.h"
#include "cli/job_wording.h"
#include "cli/plan_report.h"

namespace pumpwright {
namespace {

struct PlanArguments {
  std::string file;
  std::string freeze;
  std::string language = "en";
  std::string catalog;
  bool json = false;
};

Answer run_plan(const PlanArguments& a, const Surroundings& surroundings) {
  const CatalogFiles files(a.catalog);
  const auto session = open_job(a.file, files, surroundings.in);
  const auto language = language_of(a.language);
  std::string text = a.json ? plan_json(session) : plan_text(session, language);
  if (!a.freeze.empty()) {
    const auto frozen = naming_file(a.file, [&] { return job::freeze(session.bytes, session.snapshot); });
    write_output(a.freeze, frozen, "--freeze");
    if (!a.json) text += say(Word::plan_written, language) + " " + a.freeze + "\n";
  }
  return {.text = std::move(text)};
}

}  // namespace

void add_plan_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<PlanArguments>();
  auto* plan = add_command(app, "plan", "Show the steps, cautions and checks that a job's make-up calls for",
                           "pumpwright plan job.json --freeze job-with-plan.json");
  is_file(
      *plan->add_option("JOB", a->file, "Job file (docs/job.schema.json); - for standard input")->required());
  auto* freeze =
      plan->add_option("--freeze", a->freeze,
                       "Write the job to this file with its plan, limits and instruments frozen, so "
                       "that a later catalog changes no verdict");
  is_file(*freeze);
  add_choice(*plan, "--language", a->language, {"en", "es"}, "Language of the text (default en)");
  add_catalog_option(*plan, a->catalog);
  plan->add_flag("--json", a->json, "Print JSON instead of text");
  plan->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_plan(*a, surroundings); };
  });
}

}  // namespace pumpwright
