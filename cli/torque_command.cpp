#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/catalog_files.h"
#include "cli/catalog_lookup.h"
#include "cli/command.h"
#include "cli/program.h"
#include "cli/torque_question.h"
#include "engine/quantity/parse.h"

namespace pumpwright {
namespace {

constexpr double usual_proof_share = 0.75;  // of a joint that is taken apart again; common practice
constexpr double torque_max_nm = 1e6;
constexpr double preload_max_n = 1e9;

struct TorqueArguments {
  std::string thread;
  std::string grade;
  std::string condition;
  std::string nut_factor;
  std::string torque;
  std::string preload;
  std::string proof_share;
  std::string wrench_error;
  std::string catalog;
  bool json = false;
};

Sourced number_from(const Row& row, const std::string& column, const std::string& what) {
  const auto* value = row.value(column);
  return {.what = what, .value = fmt::format("{} ({})", value->text, row.id()), .source = *value->source};
}

void read_thread(const Catalog& catalog, const TorqueArguments& a, TorqueQuestion& q) {
  const auto& row = row_named(table_named(catalog, "fastener-threads", "--thread"), a.thread, "--thread");
  const bool metric = row.text("series").starts_with("ISO");
  q.thread_name = row.id();
  q.thread = {.form = metric ? ThreadForm::iso_metric : ThreadForm::unified,
              .diameter = row.length("diameter").value(),
              .pitch = row.length("pitch").value()};
  q.system = metric ? System::metric : System::inch;
  q.numbers.push_back(number_from(row, "diameter", "diameter"));
  q.numbers.push_back(number_from(row, "pitch", "pitch"));
}

void read_strength(const Catalog& catalog, const TorqueArguments& a, TorqueQuestion& q) {
  const auto& row = strength_of(catalog, a.grade, q.thread.diameter, "--grade");
  q.proof_stress = row.pressure("proof").value();
  q.numbers.push_back(number_from(row, "proof", "proof stress"));
}

FrictionRange range_of(const std::string& text) {
  const auto colon = text.find(':');
  const std::string low = text.substr(0, colon);
  const std::string high = colon == std::string::npos ? low : text.substr(colon + 1);
  const FrictionRange range{.lowest = parse_number(low, {.field = "--nut-factor"}),
                            .highest = parse_number(high, {.field = "--nut-factor"})};
  if (!(range.lowest >= 0.02 && range.lowest <= range.highest && range.highest <= 2))
    throw bad_argument("--nut-factor", text, "one number, or two with a colon between, from 0.02 to 2");
  return range;
}

void read_friction(const Catalog& catalog, const TorqueArguments& a, TorqueQuestion& q) {
  if (!a.nut_factor.empty()) {
    q.nut_factor = range_of(a.nut_factor);
    q.numbers.push_back({.what = "nut factor K", .value = a.nut_factor, .source = std::nullopt});
  }
  if (a.condition.empty()) {
    if (a.nut_factor.empty())
      throw bad_argument("--condition", "nothing",
                         "the state of the threads, such as dry or oiled, or --nut-factor");
    return;
  }
  const auto& row = row_named(table_named(catalog, "nut-factor", "--condition"), a.condition, "--condition");
  q.advice = row.text("advice");
  if (!a.nut_factor.empty()) return;
  const auto low = row.number("k_low"), high = row.number("k_high");
  if (!low || !high)
    throw bad_argument("--condition", a.condition,
                       "also --nut-factor LOW:HIGH, since the catalog holds no nut factor for it");
  q.nut_factor = {.lowest = *low, .highest = *high};
  q.numbers.push_back({.what = "nut factor K",
                       .value = fmt::format("{:g} to {:g} ({})", *low, *high, row.id()),
                       .source = *row.value("k_high")->source});
}

double fraction(const std::string& flag, const std::string& text, double least, double most) {
  const Unit& percent = unit_with_symbol("%", Kind::percent);
  const bool is_percent = text.find('%') != std::string::npos;
  const double value = is_percent ? parse_fraction(text, {.field = flag, .default_unit = &percent})
                                  : parse_number(text, {.field = flag});
  if (!(value >= least && value <= most))
    throw bad_argument(flag, text,
                       fmt::format("a part from {:g} to {:g}, such as 0.75 or 75 %", least, most));
  return value;
}

void read_what_is_asked(const TorqueArguments& a, TorqueQuestion& q) {
  const int asked = static_cast<int>(!a.torque.empty()) + static_cast<int>(!a.preload.empty()) +
                    static_cast<int>(!a.proof_share.empty());
  if (asked > 1)
    throw bad_argument("--torque, --preload, --proof-share", "more than one", "at most one of them");
  if (!a.torque.empty()) {
    const double error = a.wrench_error.empty() ? 0 : fraction("--wrench-error", a.wrench_error, 0, 0.9);
    const auto torque = parse_written(a.torque, Kind::torque, {.field = "--torque"});
    if (!(torque.si > 0 && torque.si <= torque_max_nm))
      throw bad_argument("--torque", a.torque, "a torque above zero, at most 1e6 N·m");
    q.torque = AppliedTorque{.set = newton_metres(torque.si), .wrench_error = error};
    q.system = torque.unit->system == System::both ? q.system : torque.unit->system;
    return;
  }
  if (!a.wrench_error.empty())
    throw bad_argument("--wrench-error", a.wrench_error, "nothing, unless with --torque");
  if (!a.preload.empty()) {
    const auto preload = parse_written(a.preload, Kind::force, {.field = "--preload"});
    if (!(preload.si > 0 && preload.si <= preload_max_n))
      throw bad_argument("--preload", a.preload, "a force above zero, at most 1e9 N");
    q.preload = newtons(preload.si);
    return;
  }
  q.proof_share =
      a.proof_share.empty() ? usual_proof_share : fraction("--proof-share", a.proof_share, 0.01, 1.5);
}

Answer run_torque(const TorqueArguments& a, const Surroundings& surroundings) {
  const auto catalog = load_catalog(a.catalog);
  TorqueQuestion q;
  read_thread(catalog, a, q);
  read_strength(catalog, a, q);
  read_friction(catalog, a, q);
  read_what_is_asked(a, q);
  const auto finding = answer(q);
  return {.text = a.json ? torque_json(q, finding) : torque_text(q, finding, surroundings.colour),
          .exit_status = finding.verdict == "pass" ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_torque_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<TorqueArguments>();
  auto* torque = add_command(
      app, "torque", "Torque and preload of a fastener, over the range of its friction",
      "pumpwright torque --thread 1/2-13 --grade \"SAE 5\" --condition dry --torque \"60 ft-lb\"");
  torque->add_option("--thread", a->thread, "Row of the table fastener-threads: 1/2-13, M12 …")->required();
  torque->add_option("--grade", a->grade, "Grade or property class: \"SAE 5\", \"ISO 8.8\" …")->required();
  torque->add_option("--condition", a->condition,
                     "Row of the table nut-factor: dry, oiled, thread-locking …");
  torque->add_option("--nut-factor", a->nut_factor,
                     "K in T = K d F as a number or LOW:HIGH, in place of the catalog's");
  torque->add_option("--torque", a->torque, "Torque that is set; what preload does it give?");
  torque->add_option("--preload", a->preload, "Preload that is wanted; what torque gives it?");
  torque->add_option("--proof-share", a->proof_share,
                     "Part of the proof load that is wanted: 0.75 or 75 % (default 0.75, common practice)");
  torque->add_option("--wrench-error", a->wrench_error,
                     "With --torque: the wrench reads right to ± this, such as 4 %");
  add_catalog_option(*torque, a->catalog);
  torque->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  torque->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_torque(*a, surroundings); };
  });
}

}  // namespace pumpwright
