#include <algorithm>
#include <memory>
#include <sstream>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/job_session.h"
#include "cli/job_wording.h"
#include "cli/program.h"
#include "cli/true_report.h"
#include "engine/quantity/parse.h"

namespace pumpwright {
namespace {

using job::answer;

struct TrueArguments {
  std::string file;
  std::string room;
  bool sleeve_keyed = false;
  std::string catalog;
  std::string language = "en";
  bool json = false;
};

void answer_both(TrueReport& report) {
  if (!report.rotating_question.stations.empty()) report.rotating = answer(report.rotating_question);
  if (!report.standing_question.stations.empty()) report.standing = answer(report.standing_question);
}

true_running::Tapping tapping_of(const DialLeft& dial,
                                 const job::TrueQuestion<true_running::Standing>& question) {
  const auto found = std::find_if(question.stations.begin(), question.stations.end(),
                                  [&](const auto& s) { return s.id == dial.station; });
  if (found == question.stations.end() || found->surface != true_running::Surface::radial)
    throw BadInput({"station", "/standing/dial", dial.station, "the id of a radial station"});
  try {
    return true_running::tapping(true_running::centre(found->vector, question.moves.room), dial.at,
                                 dial.change);
  } catch (const BadInput& error) {
    throw error.at("/standing/dial");
  }
}

TrueReport report_of_file(const std::string& path, const std::string& bytes) {
  return naming_file(path, [&] {
    TrueFile file = decode_true_file(bytes);
    TrueReport report;
    report.file = path;
    report.name = file.name;
    report.unit = file.unit;
    report.rotating_question = std::move(file.rotating);
    report.standing_question = std::move(file.standing);
    answer_both(report);
    if (file.dial) report.tapping = tapping_of(*file.dial, report.standing_question);
    return report;
  });
}

TrueReport report_of_job(const TrueArguments& a, const std::string& bytes) {
  const CatalogFiles files(a.catalog);
  std::istringstream again(bytes);
  const auto session = open_job(a.file, files, again);
  const auto state = judged(session, session.snapshot);
  return naming_file(a.file, [&] {
    auto job = job::true_running_of(session.snapshot, state.state, state.judgement);
    const auto& header = session.file.header;
    TrueReport report;
    report.file = a.file;
    report.name = "job " + header.number + ", " + header.pump;
    report.unit = job.unit;
    report.rotating_question = std::move(job.rotating);
    report.standing_question = std::move(job.standing);
    report.left_out = std::move(job.left_out);
    report.assumed = std::move(job.assumed);
    report.titles = std::move(job.titles);
    if (a.sleeve_keyed) report.rotating_question.moves.sleeve_turns = false;
    if (!a.room.empty()) {
      report.standing_question.moves.room = parse_length(a.room, {.field = "--room"});
      report.standing_question.room_known = true;
    }
    answer_both(report);
    if (job.rotating_before && report.rotating) report.rotating->after = answer(*job.rotating_before).after;
    if (job.standing_before && report.standing) report.standing->after = answer(*job.standing_before).after;
    return report;
  });
}

Answer run_true(const TrueArguments& a, const Surroundings& surroundings) {
  const std::string bytes = read_input(a.file, json_bytes_max, surroundings.in);
  TrueReport report = looks_like_true_file(bytes) ? report_of_file(a.file, bytes) : report_of_job(a, bytes);
  report.language = language_of(a.language);
  return {.text = a.json ? true_json(report) : true_text(report, surroundings.colour),
          .exit_status = report.all_well() ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_true_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<TrueArguments>();
  auto* command =
      add_command(app, "true", "Which part is out, which way, and the least work that puts it right",
                  "pumpwright true docs/examples/true-impeller-nine-thou.json");
  is_file(
      *command
           ->add_option(
               "FILE", a->file,
               "Job file or record with sweeps, or stations (docs/true.schema.json); - for standard input")
           ->required());
  command->add_option("--room", a->room,
                      "Of a job: how far the loosened bracket can go from where it sits, \"3 thou\"");
  command->add_flag("--sleeve-keyed", a->sleeve_keyed,
                    "Of a job: the sleeve fits the shaft in one place only");
  add_catalog_option(*command, a->catalog);
  add_choice(*command, "--language", a->language, {"en", "es"}, "Language of the text (default en)");
  command->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  command->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_true(*a, surroundings); };
  });
}

}  // namespace pumpwright
