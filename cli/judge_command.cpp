#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/job_session.h"
#include "cli/job_wording.h"
#include "cli/judge_report.h"
#include "cli/program.h"
#include "cli/record_files.h"

namespace pumpwright {
namespace {

struct JudgeArguments {
  std::string file;
  std::string report;
  std::string drawings;
  std::string readings;
  std::string paper = "a4";
  std::string language = "en";
  std::string catalog;
  bool again = false;
  bool json = false;
};

// Where what was written can be found.
std::string written_text(const JudgeArguments& a, job::Language language) {
  std::string text;
  if (!a.report.empty()) text += say(Word::report_written, language) + " " + a.report + "\n";
  if (!a.drawings.empty()) text += say(Word::drawings_written, language) + " " + a.drawings + "\n";
  if (!a.readings.empty()) text += say(Word::readings_written, language) + " " + a.readings + "\n";
  return text.empty() ? text : "\n" + text;
}

Answer run_judge(const JudgeArguments& a, const Surroundings& surroundings) {
  const CatalogFiles files(a.catalog);
  const auto session = open_job(a.file, files, surroundings.in);
  const auto language = language_of(a.language);
  const auto verdict = verdict_on(session, files, a.again);
  write_record(session, verdict,
               {.report = a.report,
                .drawings = a.drawings,
                .readings = a.readings,
                .language = language,
                .paper = report::paper_of(a.paper)});
  std::string text =
      a.json ? judge_json(session, verdict, language)
             : judge_text(session, verdict, language, surroundings.colour) + written_text(a, language);
  return {.text = std::move(text),
          .exit_status = verdict.judgement.all_pass() ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_judge_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<JudgeArguments>();
  auto* judge = add_command(app, "judge", "Judge every check of a job, and write its build record",
                            "pumpwright judge job.json --report build-record.pdf");
  is_file(*judge
               ->add_option("JOB", a->file,
                            "Job file (docs/job.schema.json) or record of a shop; - for standard input")
               ->required());
  is_file(*judge->add_option("--report", a->report, "Write the build record to this file, as PDF"));
  is_directory(*judge->add_option("--drawings", a->drawings,
                                  "Write the drawings of the record into this directory, as SVG and PNG"));
  is_file(*judge->add_option("--readings", a->readings,
                             "Write every judged reading to this file: as a table, CSV in SI units, or, "
                             "when its name ends in .qif, lengths as QIF 3.0 results (ISO 23952)"));
  add_choice(*judge, "--paper", a->paper, {"a4", "letter"}, "Paper of the build record (default a4)");
  add_choice(*judge, "--language", a->language, {"en", "es"},
             "Language of text, record and drawings (default en)");
  judge->add_flag(
      "--again", a->again,
      "Judge by the catalog at hand as well, and show what that changes against the snapshot frozen in "
      "the job. The exit status stays that of the frozen one");
  add_catalog_option(*judge, a->catalog);
  judge->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  judge->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_judge(*a, surroundings); };
  });
}

}  // namespace pumpwright
