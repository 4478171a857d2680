#include "cli/performance_file.h"

#include <fmt/format.h>

#include "engine/seal/atmosphere.h"
#include "job/decode.h"

namespace pumpwright {
namespace {

using job::JsonReader;

constexpr std::int64_t version = 1;

hydraulics::Tolerance read_tolerance(const JsonReader& json) {
  json.allow_only({"flow_low", "flow_high", "head_low", "head_high", "power_high", "efficiency_low"});
  hydraulics::Tolerance t;
  t.flow_low = decode_part(json.required("flow_low"), -0.5, 0);
  t.flow_high = decode_part(json.required("flow_high"), 0, 0.5);
  t.head_low = decode_part(json.required("head_low"), -0.5, 0);
  t.head_high = decode_part(json.required("head_high"), 0, 0.5);
  if (const auto p = json.optional("power_high")) t.power_high = decode_part(*p, 0, 0.5);
  if (const auto e = json.optional("efficiency_low")) t.efficiency_low = decode_part(*e, -0.5, 0);
  t.known = HowKnown::read;
  return t;
}

void read_rule(const JsonReader& json, GuaranteeFile& file) {
  if (const auto rule = json.optional("rule"))
    file.rule.kind = rule->word({"guarded", "standard"}) == "standard" ? hydraulics::GradeRule::Kind::standard
                                                                       : hydraulics::GradeRule::Kind::guarded;
  if (const auto p = json.optional("probability")) {
    file.rule.probability = p->number();
    if (!(file.rule.probability >= 0.5 && file.rule.probability <= 0.999))
      p->refuse("a number from 0.5 to 0.999");
  }
  if (const auto who = json.optional("confirmed_by")) {
    file.confirmed_by = who->text(200);
    if (file.confirmed_by.empty()) who->refuse("who compared the figures with the standard");
    file.rule.confirmed = true;
  }
  if (const auto own = json.optional("own")) file.rule.own = read_tolerance(*own);
}

GuaranteeFile read_guarantee(const JsonReader& json) {
  json.allow_only(
      {"flow", "head", "power", "efficiency", "grade", "rule", "probability", "confirmed_by", "own"});
  GuaranteeFile file;
  file.promised.flow =
      cubic_metres_per_second(job::decode_positive(json.required("flow"), Kind::volume_flow).si);
  file.promised.head = decode_length(json.required("head"), 1e-3, 1e5);
  if (const auto p = json.optional("power"))
    file.promised.shaft_power = watts(job::decode_positive(*p, Kind::power).si);
  if (const auto e = json.optional("efficiency")) file.promised.efficiency = decode_part(*e, 1e-3, 1);
  const auto grade = json.optional("grade");
  if (grade) file.grade = hydraulics::grade_from(grade->word({"1B", "1E", "1U", "2B", "2U", "3B", "small"}));
  read_rule(json, file);
  if (grade && file.rule.own) grade->refuse("a grade or figures of your own, not both");
  if (file.grade == hydraulics::Grade::small)
    job::placed(grade->pointer(), [&] {
      return hydraulics::tolerance_of(hydraulics::Grade::small, file.promised.shaft_power);
    });
  return file;
}

hydraulics::SuctionSide read_plant(const JsonReader& json, AbsolutePressure atmosphere) {
  json.allow_only({"surface", "altitude", "level", "loss", "temperature"});
  hydraulics::SuctionSide side;
  if (const auto altitude = json.optional("altitude"))
    atmosphere = seal::standard_atmosphere(decode_length(*altitude, -500, 9000));
  const Pressure gauge = pascals(decode_gauge(json.required("surface")).si);
  side.surface = {atmosphere.value + gauge};
  if (side.surface.value.value() < 0)
    json.required("surface").refuse("a gauge pressure not below vacuum there");
  side.level = decode_length(json.required("level"), -1000, 1000);
  side.loss = decode_length(json.required("loss"), 0, 1000);
  side.temperature =
      job::decode_written(json.required("temperature"), Kind::temperature).quantity().as<Temperature>();
  return side;
}

void read_run(const JsonReader& json, NpshFile& file) {
  json.allow_only({"points", "plateau", "npsh_error", "head_error"});
  for (const auto& point : json.required("points").items(200)) {
    point.allow_only({"npsh", "head"});
    file.run.push_back({decode_length(point.required("npsh"), 1e-3, 1000),
                        decode_length(point.required("head"), 1e-3, 1e5)});
  }
  file.plateau = static_cast<std::size_t>(json.required("plateau").integer(2, 199));
  file.doubt.npsh = decode_length(json.required("npsh_error"), 0, 100) / 1.7320508075688772;
  file.doubt.head = decode_length(json.required("head_error"), 0, 100) / 1.7320508075688772;
}

NpshFile read_npsh(const JsonReader& json, AbsolutePressure atmosphere) {
  json.allow_only({"plant", "suppression"});
  NpshFile file;
  if (const auto plant = json.optional("plant")) file.plant = read_plant(*plant, atmosphere);
  if (const auto run = json.optional("suppression")) read_run(*run, file);
  if (!file.plant && file.run.empty()) json.refuse("plant, suppression or both");
  return file;
}

}  // namespace

hydraulics::Impeller decode_impeller(const JsonReader& json) {
  json.allow_only({"diameter", "inlet_diameter", "least_diameter"});
  hydraulics::Impeller impeller;
  impeller.diameter = decode_length(json.required("diameter"), 0.01, 5);
  if (const auto d = json.optional("inlet_diameter")) impeller.inlet_diameter = decode_length(*d, 1e-3, 5);
  if (const auto d = json.optional("least_diameter")) impeller.least_diameter = decode_length(*d, 1e-3, 5);
  return impeller;
}

PerformanceFile decode_performance_file(std::string_view bytes) {
  const auto json = JsonReader::parse(bytes);
  json.allow_only({"format", "version", "name", "note", "stages", "test", "guarantee", "npsh", "impeller"});
  (void)json.required("format").word({"pumpwright-performance"});
  (void)json.required("version").integer(version, version);
  if (const auto note = json.optional("note")) (void)note->text();
  PerformanceFile file;
  file.name = json.required("name").text(200);
  if (const auto stages = json.optional("stages")) file.stages = static_cast<int>(stages->integer(1, 100));
  file.test = decode_pump_test(json.required("test"));
  if (const auto g = json.optional("guarantee")) file.guarantee = read_guarantee(*g);
  if (const auto n = json.optional("npsh")) file.npsh = read_npsh(*n, file.test.test.rig.atmosphere);
  if (const auto i = json.optional("impeller")) file.impeller = decode_impeller(*i);
  return file;
}

}  // namespace pumpwright
