#include <memory>
#include <sstream>

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include "cli/cause_report.h"
#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/job_session.h"
#include "cli/job_wording.h"
#include "cli/program.h"
#include "cli/record_files.h"
#include "report/customer_letter.h"

namespace pumpwright {
namespace {

struct CauseArguments {
  std::string file;
  std::string catalog;
  std::string language = "en";
  std::string letter;
  std::string paper = "a4";
  bool json = false;
};

bool is_strip_down_file(const std::string& bytes) {
  const auto json = nlohmann::json::parse(bytes, nullptr, false);
  return json.is_object() && json.value("format", "") == "pumpwright-strip-down";
}

// Whoever writes the file by hand is told of a word that nobody knows; a job's record can not be changed.
void refuse_unknown(const job::StripDownSheet& sheet, const job::CauseTables& tables) {
  for (const auto* list : {&sheet.found, &sheet.not_found})
    for (const auto& thing : *list)
      if (!tables.finding(thing.finding))
        throw BadInput({.field = "finding",
                        .place = thing.pointer,
                        .value = thing.finding,
                        .expected = "a finding of the catalog: pumpwright catalog list cause-findings"});
}

CauseReport report_of_file(const CauseArguments& a, const std::string& bytes,
                           const job::CauseTables& tables) {
  return naming_file(a.file, [&] {
    CauseReport report;
    report.sheet = job::decode_strip_down(job::JsonReader::parse(bytes));
    refuse_unknown(report.sheet, tables);
    report.name = report.sheet.name;
    report.finding = job::cause_of(tables, report.sheet);
    return report;
  });
}

void write_letter(const CauseArguments& a, const JobSession& session, const JudgedState& state,
                  const job::CauseTables& tables, const CauseReport& report) {
  if (a.letter.empty()) return;
  const auto section = job::section_of(session.snapshot.make_up);
  const auto pdf =
      report::customer_letter_pdf({.record = record_input(session, state.state, state.judgement, section,
                                                          language_of(a.language), report::paper_of(a.paper)),
                                   .tables = tables,
                                   .strip_down = report.sheet,
                                   .cause = report.finding});
  write_output(a.letter, pdf, "--letter");
}

CauseReport report_of_job(const CauseArguments& a, const CatalogFiles& files, const std::string& bytes,
                          const job::CauseTables& tables) {
  std::istringstream again(bytes);
  const auto session = open_job(a.file, files, again);
  const auto state = judged(session, session.snapshot);
  CauseReport report = naming_file(a.file, [&] {
    auto sheet = job::strip_down_of(session.snapshot, state.state);
    if (!sheet)
      throw BadInput({.field = "events",
                      .place = "/events",
                      .value = "no strip-down",
                      .expected = "a reading of the check strip-down, of a make-up with that sheet"});
    auto finding = job::cause_of(tables, *sheet, state.judgement);
    const auto& header = session.file.header;
    return CauseReport{.file = {},
                       .name = "job " + header.number + ", " + header.pump,
                       .sheet = std::move(*sheet),
                       .finding = std::move(finding)};
  });
  write_letter(a, session, state, tables, report);
  return report;
}

Answer run_cause(const CauseArguments& a, const Surroundings& surroundings) {
  const std::string bytes = read_input(a.file, json_bytes_max, surroundings.in);
  if (!a.letter.empty() && is_strip_down_file(bytes))
    throw bad_argument("--letter", a.letter, "this only with a job: a letter says what was done too");
  const CatalogFiles files(a.catalog);
  const auto tables = job::CauseTables::from(Catalog::load(files.files()));
  CauseReport report =
      is_strip_down_file(bytes) ? report_of_file(a, bytes, tables) : report_of_job(a, files, bytes, tables);
  report.file = a.file;
  report.language = language_of(a.language);
  return {.text = a.json ? cause_json(report, tables) : cause_text(report, tables),
          .exit_status = report.finding.tells() ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_cause_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<CauseArguments>();
  auto* command = add_command(app, "cause", "Why a pump came back, from what was found when it was stripped",
                              "pumpwright cause docs/examples/strip-down-greenhouse.json");
  is_file(*command
               ->add_option("FILE", a->file,
                            "Job file or record with a strip-down, or a strip-down file "
                            "(docs/strip-down.schema.json); - for standard input")
               ->required());
  add_catalog_option(*command, a->catalog);
  is_file(*command->add_option(
      "--letter", a->letter, "Of a job: write a one-page letter for the pump's owner to this file, as PDF"));
  add_choice(*command, "--paper", a->paper, {"a4", "letter"}, "Paper of the letter (default a4)");
  add_choice(*command, "--language", a->language, {"en", "es"}, "Language of text and letter (default en)");
  command->add_flag("--json", a->json, "Print JSON instead of text");
  command->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_cause(*a, surroundings); };
  });
}

}  // namespace pumpwright
