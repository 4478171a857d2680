#include "job/sheets/performance_sheet.h"

#include <fmt/format.h>

#include "engine/seal/atmosphere.h"
#include "job/decode.h"

namespace pumpwright::job {
namespace {

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

void read_rule(const JsonReader& json, GuaranteeSheet& file) {
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

GuaranteeSheet read_guarantee(const JsonReader& json) {
  json.allow_only(
      {"flow", "head", "power", "efficiency", "grade", "rule", "probability", "confirmed_by", "own"});
  GuaranteeSheet file;
  file.flow = decode_positive(json.required("flow"), Kind::volume_flow);
  file.head = written_between(json.required("head"), Kind::length, 1e-3, 1e5, "a head over 0");
  file.promised.flow = file.flow.quantity().as<VolumeFlow>();
  file.promised.head = file.head.quantity().as<Length>();
  if (const auto p = json.optional("power"))
    file.promised.shaft_power = watts(decode_positive(*p, Kind::power).si);
  if (const auto e = json.optional("efficiency")) file.promised.efficiency = decode_part(*e, 1e-3, 1);
  const auto grade = json.optional("grade");
  if (grade) file.grade = hydraulics::grade_from(grade->word({"1B", "1E", "1U", "2B", "2U", "3B", "small"}));
  read_rule(json, file);
  if (grade && file.rule.own) grade->refuse("a grade or figures of your own, not both");
  if (file.grade == hydraulics::Grade::small)
    placed(grade->pointer(),
           [&] { return hydraulics::tolerance_of(hydraulics::Grade::small, file.promised.shaft_power); });
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
      decode_written(json.required("temperature"), Kind::temperature).quantity().as<Temperature>();
  return side;
}

void read_run(const JsonReader& json, NpshSheet& file) {
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

NpshSheet read_npsh(const JsonReader& json, AbsolutePressure atmosphere) {
  json.allow_only({"plant", "suppression"});
  NpshSheet file;
  if (const auto plant = json.optional("plant")) file.plant = read_plant(*plant, atmosphere);
  if (const auto run = json.optional("suppression")) read_run(*run, file);
  if (!file.plant && file.run.empty()) json.refuse("plant, suppression or both");
  return file;
}

DriverSheet read_driver(const JsonReader& json) {
  json.allow_only({"rated_power", "service_factor", "lines"});
  DriverSheet driver;
  driver.rated_power = decode_positive(json.required("rated_power"), Kind::power).quantity().as<Power>();
  if (const auto factor = json.optional("service_factor")) {
    driver.service_factor = factor->number();
    if (!(driver.service_factor >= 1 && driver.service_factor <= 2))
      factor->refuse("the plate's service factor, 1 to 2");
  }
  if (const auto lines = json.optional("lines")) {
    const auto volts = lines->items(3);
    if (volts.size() != 3) lines->refuse("the voltages between the three phases");
    driver.lines = {decode_voltage(volts[0]), decode_voltage(volts[1]), decode_voltage(volts[2])};
  }
  return driver;
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

namespace {

PerformanceSheet read_sheet(const JsonReader& json, PumpTestSheet (*read_test)(const JsonReader&)) {
  json.allow_only(
      {"format", "version", "name", "note", "stages", "test", "guarantee", "npsh", "impeller", "driver"});
  (void)json.required("format").word({"pumpwright-performance"});
  (void)json.required("version").integer(version, version);
  if (const auto note = json.optional("note")) (void)note->text();
  PerformanceSheet sheet;
  sheet.name = json.required("name").text(200);
  if (const auto stages = json.optional("stages")) sheet.stages = static_cast<int>(stages->integer(1, 100));
  sheet.test = read_test(json.required("test"));
  if (const auto g = json.optional("guarantee")) sheet.guarantee = read_guarantee(*g);
  if (const auto n = json.optional("npsh")) sheet.npsh = read_npsh(*n, sheet.test.test.rig.atmosphere);
  if (const auto i = json.optional("impeller")) sheet.impeller = decode_impeller(*i);
  if (const auto d = json.optional("driver")) sheet.driver = read_driver(*d);
  return sheet;
}

}  // namespace

PerformanceSheet decode_performance(const JsonReader& json) {
  return read_sheet(json, decode_pump_test);
}

PerformanceSheet performance_plan(const JsonReader& json) {
  return read_sheet(json, pump_test_plan);
}

}  // namespace pumpwright::job
