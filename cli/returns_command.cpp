#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/program.h"
#include "cli/returns_csv.h"
#include "cli/returns_report.h"
#include "engine/quantity/parse.h"

namespace pumpwright {
namespace {

struct ReturnsArguments {
  std::string file;
  std::string unit;
  std::string clock = "running";
  std::string time = "time";
  std::string event = "event";
  std::string group;
  std::string pump;
  std::vector<std::string> covariates;
  bool before_after = false;
  std::string worth = "0.5";
  std::string confidence = "95 %";
  std::string band = "log-log";
  std::string ties = "efron";
  bool json = false;
};

std::optional<std::string> given(const std::string& name) {
  return name.empty() ? std::nullopt : std::optional(name);
}

double confidence_of(const std::string& text) {
  const double confidence = parse_fraction(text, {.field = "--confidence"});
  if (!(confidence >= 0.5 && confidence <= 0.999)) throw bad_argument("--confidence", text, "50 % to 99.9 %");
  return confidence;
}

double worth_of(const std::string& text) {
  const double ratio = parse_number(text, {.field = "--worth"});
  if (!(ratio >= 0.01 && ratio <= 100 && ratio != 1))
    throw bad_argument("--worth", text,
                       "a number from 0.01 to 100 other than 1, such as 0.5 for half as often");
  return ratio;
}

job::ReturnsQuestion question_of(const ReturnsArguments& a, const Surroundings& surroundings) {
  job::ReturnsQuestion q;
  q.columns = {.time = a.time,
               .event = a.event,
               .group = given(a.group),
               .pump = given(a.pump),
               .covariates = a.covariates};
  q.is_calendar = a.clock == "calendar";
  q.confidence = confidence_of(a.confidence);
  q.band = a.band == "log" ? reliability::BandTransform::log : reliability::BandTransform::log_log;
  q.ties = a.ties == "breslow" ? reliability::Ties::breslow : reliability::Ties::efron;
  q.before_after = a.before_after;
  q.ratio_to_prove = worth_of(a.worth);
  const Unit* unit = a.unit.empty() ? nullptr : &parse_unit(a.unit, Kind::time, "--unit");
  const std::string bytes = read_input(a.file, csv_bytes_max, surroundings.in);
  q.table = naming_file(a.file, [&] { return read_returns_csv(bytes, q.columns, unit); });
  return q;
}

Answer run_returns(const ReturnsArguments& a, const Surroundings& surroundings) {
  const auto question = question_of(a, surroundings);
  const auto finding = naming_file(a.file, [&] { return job::answer(question); });
  const bool well = finding.verdict.empty() || finding.verdict == "pass";
  return {.text = a.json ? returns_json(a.file, question, finding)
                         : returns_text(a.file, question, finding, surroundings.colour),
          .exit_status = well ? exit_all_pass : exit_not_all_pass};
}

void add_column_options(CLI::App& returns, ReturnsArguments& a) {
  returns.add_option("--unit", a.unit,
                     "Unit of times written without one: h, d …; without it every time carries its own");
  add_choice(returns, "--clock", a.clock, {"running", "calendar"},
             "What the times count: hours of running (default), or days on the calendar");
  returns.add_option("--time", a.time, "Column with the time out (default time)");
  returns.add_option("--event", a.event,
                     "Column with how it ended: returned, running or replaced (default event)");
  returns.add_option("--group", a.group,
                     "Column that parts the pumps into groups to compare (default group, if there is one); "
                     "never people");
  returns.add_option(
      "--pump", a.pump,
      "Column with the pump's number, rows in the order in which it went out (default pump, if "
      "there is one): does the same pump come back more and more often?");
  returns
      .add_option("--covariate", a.covariates,
                  "Column with a reading at the build: does it go with coming back early? May be given more "
                  "than once")
      ->allow_extra_args(false);
}

void add_judging_options(CLI::App& returns, ReturnsArguments& a) {
  returns.add_flag("--before-after", a.before_after,
                   "The groups are before and after a change: did it help? Pass, fail or unproven");
  returns.add_option("--worth", a.worth,
                     "With --before-after: the change worth knowing of, as rate of return after over before "
                     "(default 0.5)");
  returns.add_option("--confidence", a.confidence, "How sure statements are to be (default 95 %)");
  add_choice(returns, "--band", a.band, {"log-log", "log"},
             "Transformation behind the band of the curve (default log-log)");
  add_choice(returns, "--ties", a.ties, {"efron", "breslow"},
             "How readings treat returns at the same time (default efron)");
}

}  // namespace

void add_returns_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<ReturnsArguments>();
  auto* returns = add_command(
      app, "returns", "What a list of pumps that went out and came back says, and what it does not",
      "pumpwright returns docs/examples/returns-seals.csv --unit h --covariate shaft_runout_thou "
      "--before-after");
  is_file(*returns
               ->add_option("CSV", a->file,
                            "CSV file with a row for every time a pump went out; - for standard input")
               ->required());
  add_column_options(*returns, *a);
  add_judging_options(*returns, *a);
  returns->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  returns->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_returns(*a, surroundings); };
  });
}

}  // namespace pumpwright
