// `pumpwright fluid`: which liquid, where, and in which units the answer is wanted.
#include <array>
#include <memory>
#include <string_view>
#include <utility>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/command.h"
#include "cli/fluid_question.h"
#include "cli/program.h"
#include "engine/fluid/liquid_by_name.h"
#include "engine/quantity/parse.h"

namespace pumpwright {
namespace {

constexpr Pressure standard_atmosphere = pascals(101'325);

struct FluidArguments {
  std::string name;
  std::string at;
  std::string pressure;
  std::string fraction;
  std::string salinity;
  bool json = false;
};

// A part of one as a number, or with its unit: "0.5", "50 %", "35 g/kg".
double part_of(const std::string& flag, const std::string& text) {
  const bool bare = text.find_first_not_of("0123456789.,+-eE ") == std::string::npos;
  return bare ? parse_number(text, {.field = flag}) : parse_fraction(text, {.field = flag});
}

std::optional<double> optional_part(const std::string& flag, const std::string& text) {
  if (text.empty()) return std::nullopt;
  return part_of(flag, text);
}

bool is_gauge(const std::string& text) {
  try {
    parse_gauge_pressure(text, {.field = ""});
    return true;
  } catch (const BadInput&) {
    return false;
  }
}

std::optional<AbsolutePressure> pressure_of(const std::string& text) {
  if (text.empty()) return std::nullopt;
  const ParseContext context{.field = "--pressure"};
  if (!is_gauge(text)) return parse_absolute_pressure(text, context);
  return AbsolutePressure{parse_gauge_pressure(text, context).value + standard_atmosphere};
}

// The engine's names of what is wrong, as the command line calls them, with what stood there.
BadInput named_by_flag(const BadInput& error, const FluidArguments& a) {
  const std::array<std::pair<std::string_view, std::pair<const char*, const std::string*>>, 5> flags{{
      {"liquid", {"NAME", &a.name}},
      {"temperature", {"--at", &a.at}},
      {"pressure", {"--pressure", &a.pressure}},
      {"mass fraction of glycol", {"--fraction", &a.fraction}},
      {"salinity", {"--salinity", &a.salinity}},
  }};
  auto what = error.what_was_wrong();
  for (const auto& [field, flag] : flags)
    if (what.field == field) {
      what.field = flag.first;
      what.value = flag.second->empty() ? "nothing" : *flag.second;
      break;
    }
  return BadInput(what);
}

FluidQuestion question_of(const FluidArguments& a) {
  FluidQuestion q;
  q.name = a.name;
  q.liquid = fluid::liquid_by_name({.name = a.name,
                                    .mass_fraction = optional_part("--fraction", a.fraction),
                                    .salinity = optional_part("--salinity", a.salinity)});
  const Written at = parse_written(a.at, Kind::temperature, {.field = "--at"});
  q.at = at.quantity().as<Temperature>();
  q.system = at.unit->system == System::inch ? System::inch : System::metric;
  q.pressure = pressure_of(a.pressure);
  return q;
}

Answer run_fluid(const FluidArguments& a) {
  try {
    const FluidQuestion q = question_of(a);
    const FluidFinding finding = answer(q);
    return {.text = a.json ? fluid_json(q, finding) : fluid_text(q, finding), .exit_status = exit_all_pass};
  } catch (const BadInput& error) {
    throw named_by_flag(error, a);
  }
}

}  // namespace

void add_fluid_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<FluidArguments>();
  auto* command = add_command(
      app, "fluid", "What a liquid weighs, how thick it is and when it boils",
      "pumpwright fluid ethylene-glycol --fraction \"50 %\" --at \"180 °F\" --pressure \"12 psig\"");
  add_choice(*command, "NAME", a->name, fluid::liquid_names(), "The liquid")->required();
  command->add_option("--at", a->at, "Its temperature, such as 180 °F or 82 °C")->required();
  command->add_option("--pressure", a->pressure,
                      "Pressure it stands under, absolute or above the standard atmosphere of 101.325 kPa "
                      "(default: that atmosphere, or its vapour pressure where that is higher)");
  command->add_option("--fraction", a->fraction,
                      "Glycols: mass fraction of glycol in the mixture, such as 0.5 or 50 %; 0 to 0.6");
  command->add_option(
      "--salinity", a->salinity,
      "Sea water: mass fraction of salt, such as 0.035 or 35 g/kg; 0 to 0.15 (default 0.035)");
  command->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  command->callback([a, &chosen] { chosen = [a](const Surroundings& /*unused*/) { return run_fluid(*a); }; });
}

}  // namespace pumpwright
