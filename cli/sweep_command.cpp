#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/program.h"
#include "cli/sweep_question.h"

namespace pumpwright {
namespace {

struct SweepArguments {
  std::string file;
  std::string unit;
  std::string limit;
  std::string limit_on = "tir";
  std::string graduation;
  std::string mpe;
  std::string axis = "radial";
  std::string radius;
  std::string over;
  std::string held;
  std::string mount;
  std::string surface = "outside";
  std::string plunger_in = "plus";
  std::string stylus_angle;
  std::vector<std::string> gaps;
  std::string rule = "guarded";
  std::string ratio = "4";
  bool json = false;
};

Length positive_length(const std::string& flag, const std::string& text, const Unit& unit) {
  const Written written = parse_written(text, Kind::length, {.field = flag, .default_unit = &unit});
  if (!(written.si > 0 && written.si <= length_max_m))
    throw bad_argument(flag, text, "a length above zero, at most 1000 m");
  return metres(written.si);
}

std::optional<Length> given_length(const std::string& flag, const std::string& text, const Unit& unit) {
  if (text.empty()) return std::nullopt;
  return positive_length(flag, text, unit);
}

Angle angle_argument(const std::string& flag, const std::string& text) {
  const Unit& degree = unit_with_symbol("°", Kind::angle);
  return parse_angle(text, {.field = flag, .default_unit = &degree});
}

Gap gap_of(const std::string& text) {
  const auto colon = text.find(':');
  if (colon == std::string::npos || text.find(':', colon + 1) != std::string::npos)
    throw bad_argument("--gap", text, "two angles with a colon between, such as 80:100");
  return {.from = angle_argument("--gap", text.substr(0, colon)),
          .to = angle_argument("--gap", text.substr(colon + 1))};
}

Mount mount_of(const std::string& word) {
  if (word == "shaft") return Mount::shaft;
  if (word == "housing") return Mount::housing;
  return Mount::unknown;
}

HeldToward held_of(const std::string& word) {
  if (word == "driver") return HeldToward::driver;
  if (word == "impeller") return HeldToward::impeller;
  return HeldToward::not_held;
}

DecisionRule rule_of(const SweepArguments& a) {
  if (a.rule == "guarded") return Guarded{};
  const double ratio = parse_number(a.ratio, {.field = "--ratio"});
  if (!(ratio >= 1 && ratio <= 1000)) throw bad_argument("--ratio", a.ratio, "a number from 1 to 1000");
  return SimpleAcceptance{.ratio = ratio};
}

SweepSetup setup_of(const SweepArguments& a) {
  SweepSetup setup;
  setup.axis = a.axis == "face" ? Axis::face : Axis::radial;
  setup.mount = mount_of(a.mount);
  setup.surface = a.surface == "inside" ? Surface::inside : Surface::outside;
  setup.plunger_in = a.plunger_in == "minus" ? PlungerIn::minus : PlungerIn::plus;
  if (!a.stylus_angle.empty()) setup.lever.stylus = angle_argument("--stylus-angle", a.stylus_angle);
  for (const auto& gap : a.gaps)
    setup.gaps.push_back(gap_of(gap));
  return setup;
}

void require_fitting_options(const SweepArguments& a) {
  const bool face = a.axis == "face";
  if (face && a.radius.empty())
    throw bad_argument("--radius", "nothing", "with --axis face: the radius at which the plunger swept");
  if (face && a.limit_on == "eccentricity")
    throw bad_argument("--limit-on", a.limit_on, "with --axis face: tir (a face has no eccentricity)");
  for (const auto& [flag, text] :
       {std::pair("--radius", &a.radius), std::pair("--over", &a.over), std::pair("--held-toward", &a.held)})
    if (!face && !text->empty()) throw bad_argument(flag, *text, "nothing, unless with --axis face");
}

SweepQuestion question_of(const SweepArguments& a, const Surroundings& surroundings) {
  require_fitting_options(a);
  SweepQuestion q;
  q.file = a.file;
  q.unit = &parse_unit(a.unit, Kind::length, "--unit");
  q.setup = setup_of(a);
  q.held = held_of(a.held);
  q.radius = given_length("--radius", a.radius, *q.unit);
  q.over = given_length("--over", a.over, *q.unit);
  q.on_eccentricity = a.limit_on == "eccentricity";
  q.limit = parse_written(a.limit, Kind::length, {.field = "--limit", .default_unit = q.unit});
  (void)positive_length("--limit", a.limit, *q.unit);
  q.rule = rule_of(a);
  if (const auto graduation = given_length("--graduation", a.graduation, *q.unit)) {
    q.instrument = Instrument{.id = "", .graduation = *graduation};
    q.instrument->mpe = given_length("--mpe", a.mpe, *q.unit);
  } else if (!a.mpe.empty()) {
    throw bad_argument("--mpe", a.mpe, "nothing, unless with --graduation");
  }
  const std::string bytes = read_input(a.file, csv_bytes_max, surroundings.in);
  q.rows = naming_file(a.file, [&] { return read_sweep_csv(bytes, *q.unit); });
  return q;
}

Answer run_sweep(const SweepArguments& a, const Surroundings& surroundings) {
  const auto question = question_of(a, surroundings);
  const auto finding = answer(question);
  return {.text = a.json ? sweep_json(question, finding) : sweep_text(question, finding, surroundings.colour),
          .exit_status = finding.verdict.outcome == Outcome::pass ? exit_all_pass : exit_not_all_pass};
}

void add_judging_options(CLI::App& sweep, SweepArguments& a) {
  sweep
      .add_option("--unit", a.unit,
                  "Unit of numbers written without one: thou, in, mm, µm …; the answer comes in it too")
      ->required();
  sweep.add_option("--limit", a.limit, "Largest permitted value, such as \"7 thou\"")->required();
  add_choice(sweep, "--limit-on", a.limit_on, {"tir", "eccentricity"},
             "What the limit bounds: the TIR as read (default), or the eccentricity, which is half of what a "
             "once-per-turn movement reads");
  sweep.add_option("--graduation", a.graduation,
                   "One division of the indicator. Without it the uncertainty comes from the scatter of the "
                   "readings about the fitted curve");
  sweep.add_option("--mpe", a.mpe, "Maximum permissible error of the indicator, from its certificate");
  add_choice(sweep, "--rule", a.rule, {"guarded", "simple"},
             "guarded (default): pass and fail must be proven against the uncertainty (95 %); simple: the "
             "value decides as read, if the limit is at least --ratio graduations wide");
  sweep.add_option("--ratio", a.ratio,
                   "Graduations that must fit into the limit under --rule simple "
                   "(default 4)");
}

void add_setup_options(CLI::App& sweep, SweepArguments& a) {
  add_choice(sweep, "--axis", a.axis, {"radial", "face"}, "What was swept: radial (default), or a face");
  sweep.add_option("--radius", a.radius, "Face: radius at which the plunger swept");
  sweep.add_option("--over", a.over,
                   "Face: diameter over which squareness is stated (default: twice the "
                   "radius)");
  add_choice(sweep, "--held-toward", a.held, {"driver", "impeller"},
             "Face: side the shaft was held toward; without it no tilt is claimed, because end float moves "
             "a face reading");
  add_choice(sweep, "--mount", a.mount, {"shaft", "housing"},
             "What the angles are places on. shaft: base stands still, plunger on the turning shaft; "
             "housing: base turns with the shaft, plunger on a standing part. Without it no direction on the "
             "pump is claimed");
  add_choice(sweep, "--surface", a.surface, {"outside", "inside"},
             "Radial: a shaft or spigot (default), or a bore");
  add_choice(sweep, "--plunger-in", a.plunger_in, {"plus", "minus"},
             "What the needle shows when the plunger is pushed in (default plus)");
  sweep.add_option("--stylus-angle", a.stylus_angle,
                   "Lever indicator: angle between stylus and surface, 0 to 60 degrees");
  sweep
      .add_option("--gap", a.gaps,
                  "FROM:TO in degrees: a keyway or port without surface; readings between the two are left "
                  "out. May be given more than once")
      ->allow_extra_args(false);
}

}  // namespace

void add_sweep_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<SweepArguments>();
  auto* sweep = add_command(app, "sweep", "Evaluate and judge indicator readings round a turn",
                            "pumpwright sweep shaft.csv --unit thou --limit 2 --graduation 0.1 --mount shaft "
                            "--gap 350:10");
  is_file(*sweep
               ->add_option("CSV", a->file,
                            "CSV file with the columns angle_deg,reading; - for standard "
                            "input")
               ->required());
  add_judging_options(*sweep, *a);
  add_setup_options(*sweep, *a);
  sweep->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  sweep->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_sweep(*a, surroundings); };
  });
}

}  // namespace pumpwright
