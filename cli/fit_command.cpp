#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/catalog_files.h"
#include "cli/catalog_lookup.h"
#include "cli/command.h"
#include "cli/fit_question.h"
#include "cli/program.h"
#include "engine/quantity/parse.h"

namespace pumpwright {
namespace {

struct FitArguments {
  std::string shaft, shaft_u;
  std::string bore, bore_u;
  std::string want;
  std::string hub_outside, shaft_bore, length;
  std::string hub_material, shaft_material;
  std::string friction = "0.12";
  std::string working_clearance;
  std::string room = "20 °C";
  std::string catalog;
  bool json = false;
};

Length length_argument(const std::string& flag, const std::string& text, const Unit& unit, bool may_be_zero) {
  const auto written = parse_written(text, Kind::length, {.field = flag, .default_unit = &unit});
  if (written.si < 0 || written.si > length_max_m || (!may_be_zero && written.si == 0))
    throw bad_argument(flag, text,
                       may_be_zero ? "a length from 0 to 1000 m" : "a length above zero, at most 1000 m");
  return metres(written.si);
}

FitMaterial material_of(const Catalog& catalog, const std::string& id, const std::string& flag) {
  const auto& row = row_named(table_named(catalog, "materials", flag), id, flag);
  const auto* modulus = row.value("elastic_modulus");
  const auto* expansion = row.value("expansion");
  return {.name = std::string(row.text("name")),
          .elastic = {.youngs_modulus = row.pressure("elastic_modulus").value(),
                      .poisson = row.number("poisson").value()},
          .expansion = row.expansion("expansion").value(),
          .source = fmt::format("{}: E {}, {}; expansion {}, {}", row.text("name"), modulus->text,
                                citation(*modulus->source), expansion->text, citation(*expansion->source))};
}

bool asks_for_press(const FitArguments& a) {
  return !a.hub_outside.empty() || !a.length.empty() || !a.hub_material.empty() ||
         !a.shaft_material.empty() || !a.shaft_bore.empty() || !a.working_clearance.empty();
}

PressQuestion press_question(const FitArguments& a, const Unit& unit) {
  for (const auto& [flag, text] :
       {std::pair("--hub-outside", &a.hub_outside), std::pair("--length", &a.length),
        std::pair("--hub-material", &a.hub_material), std::pair("--shaft-material", &a.shaft_material)})
    if (text->empty())
      throw bad_argument(flag, "nothing",
                         "--hub-outside, --length, --hub-material and --shaft-material together");
  const auto catalog = load_catalog(a.catalog);
  PressQuestion press;
  press.hub_outside = length_argument("--hub-outside", a.hub_outside, unit, false);
  press.length = length_argument("--length", a.length, unit, false);
  if (!a.shaft_bore.empty()) press.shaft_bore = length_argument("--shaft-bore", a.shaft_bore, unit, true);
  press.hub = material_of(catalog, a.hub_material, "--hub-material");
  press.shaft = material_of(catalog, a.shaft_material, "--shaft-material");
  press.friction = parse_number(a.friction, {.field = "--friction"});
  if (!a.working_clearance.empty())
    press.working_clearance = length_argument("--working-clearance", a.working_clearance, unit, true);
  press.room = parse_temperature(a.room, {.field = "--room"});
  if (!(kelvin_of(press.room) >= 200 && kelvin_of(press.room) <= 400))
    throw bad_argument("--room", a.room, "a room temperature from 200 K to 400 K");
  return press;
}

Answer run_fit(const FitArguments& a, const Surroundings& surroundings) {
  FitQuestion q;
  q.shaft = parse_fit_size(a.shaft, a.shaft_u, FitSide::shaft, "--shaft");
  q.bore = parse_fit_size(a.bore, a.bore_u, FitSide::bore, "--bore");
  if (a.want == "clearance") q.wanted = FitKind::clearance;
  if (a.want == "interference") q.wanted = FitKind::interference;
  if (asks_for_press(a)) q.press = press_question(a, *q.shaft.unit);
  const auto finding = answer(q);
  const bool well = finding.verdict.empty() || finding.verdict == "pass";
  return {.text = a.json ? fit_json(q, finding) : fit_text(q, finding, surroundings.colour),
          .exit_status = well ? exit_all_pass : exit_not_all_pass};
}

void add_press_options(CLI::App& fit, FitArguments& a) {
  fit.add_option("--hub-outside", a.hub_outside, "Interference: outside diameter of the hub");
  fit.add_option("--length", a.length, "Interference: length over which hub and shaft touch");
  fit.add_option("--hub-material", a.hub_material, "Interference: row of the table materials");
  fit.add_option("--shaft-material", a.shaft_material, "Interference: row of the table materials");
  fit.add_option("--shaft-bore", a.shaft_bore, "Interference: bore of a hollow shaft (default: solid)");
  fit.add_option("--friction", a.friction, "Interference: friction between the surfaces (default 0.12)");
  fit.add_option("--working-clearance", a.working_clearance,
                 "Interference: room to slide the warm hub on (default 0)");
  fit.add_option("--room", a.room, "Interference: room temperature (default 20 °C)");
}

}  // namespace

void add_fit_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<FitArguments>();
  auto* fit = add_command(app, "fit", "Clearance or interference of a shaft in a bore",
                          "pumpwright fit --shaft \"50 g6\" --bore \"50 H7\" --want clearance");
  fit->add_option("--shaft", a->shaft,
                  "\"50 g6\", \"1.2495 in +0/-0.0005 in\", \"49.975..49.991 mm\", or a measured size")
      ->required();
  fit->add_option("--bore", a->bore, "The same for the bore: \"50 H7\" …")->required();
  fit->add_option("--shaft-u", a->shaft_u, "Standard uncertainty of a measured shaft");
  fit->add_option("--bore-u", a->bore_u, "Standard uncertainty of a measured bore");
  add_choice(*fit, "--want", a->want, {"clearance", "interference"},
             "Judge: pass when it is certain, unproven when it may be either");
  add_press_options(*fit, *a);
  add_catalog_option(*fit, a->catalog);
  fit->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  fit->callback(
      [a, &chosen] { chosen = [a](const Surroundings& surroundings) { return run_fit(*a, surroundings); }; });
}

}  // namespace pumpwright
