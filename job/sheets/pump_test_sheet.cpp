#include "job/sheets/pump_test_sheet.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "engine/fluid/liquid_by_name.h"
#include "engine/seal/atmosphere.h"
#include "job/json_quantity.h"

namespace pumpwright::job {
namespace {

using hydraulics::CurveChoice;
using hydraulics::CurveKind;
using hydraulics::Meter;
using hydraulics::PerformanceTest;
using hydraulics::TestPoint;

constexpr std::size_t points_max = 200;
constexpr std::size_t instruments_max = 30;

// A number followed by its unit letter, with k for a thousand.
double electrical(const JsonReader& json, char letter, const std::string& example) {
  std::string text = json.text(64);
  while (!text.empty() && text.back() == ' ')
    text.pop_back();
  if (text.empty() || text.back() != letter) json.refuse(example);
  text.pop_back();
  double factor = 1;
  if (!text.empty() && text.back() == 'k') {
    factor = 1000;
    text.pop_back();
  }
  const double value = placed(json.pointer(), [&] { return parse_number(text, {.field = json.field()}); });
  if (!(value > 0)) json.refuse(example + ", over 0");
  return value * factor;
}

// What an instrument of the list measures decides how its figures are read.
enum class Measures { flow, pressure, speed, power, torque, voltage, current, power_factor };

double step_of(const JsonReader& json, Measures what) {
  switch (what) {
    case Measures::flow:
      return decode_written(json, Kind::volume_flow).si;
    case Measures::pressure:
      return decode_written(json, Kind::pressure_difference).si;
    case Measures::speed:
      return decode_written(json, Kind::speed).si;
    case Measures::power:
      return decode_written(json, Kind::power).si;
    case Measures::torque:
      return decode_written(json, Kind::torque).si;
    case Measures::voltage:
      return electrical(json, 'V', "a voltage such as 2 V");
    case Measures::current:
      return electrical(json, 'A', "a current such as 0.1 A");
    case Measures::power_factor:
      return json.number();
  }
  return 0;
}

class Instruments {
 public:
  explicit Instruments(const JsonReader& test) : list_(test.required("instruments").items(instruments_max)) {
    std::set<std::string> seen;
    for (const auto& one : list_) {
      const auto id = one.required("id");
      if (id.text(80).empty() || !seen.insert(id.text(80)).second) id.refuse("an id of its own");
    }
  }

  // The instrument that the text `use` names.
  Meter meter(const JsonReader& use, Measures what) {
    const std::string id = use.text(80);
    for (std::size_t i = 0; i < list_.size(); ++i)
      if (list_[i].required("id").text(80) == id) {
        used_.insert(i);
        return read(list_[i], id, what);
      }
    use.refuse("the id of an instrument in \"instruments\"");
  }

  // Named, though the points have nothing it reads.
  void leave(const std::optional<JsonReader>& use) {
    if (!use) return;
    const std::string id = use->text(80);
    const auto at = std::find_if(list_.begin(), list_.end(),
                                 [&](const JsonReader& one) { return one.required("id").text(80) == id; });
    if (at == list_.end()) use->refuse("the id of an instrument in \"instruments\"");
    used_.insert(static_cast<std::size_t>(at - list_.begin()));
  }

  void refuse_unused() const {
    for (std::size_t i = 0; i < list_.size(); ++i)
      if (!used_.contains(i)) list_[i].required("id").refuse("an instrument that the test names");
  }

 private:
  static Meter read(const JsonReader& json, const std::string& id, Measures what) {
    json.allow_only({"id", "range", "error_of_range", "error_of_reading", "error", "reads_to"});
    Meter meter;
    meter.id = id;
    const auto range = json.optional("range"), of_range = json.optional("error_of_range");
    if (range.has_value() != of_range.has_value())
      throw BadInput({.field = range ? "error_of_range" : "range",
                      .place = json.pointer(),
                      .value = "nothing",
                      .expected = "range and error_of_range together, or neither"});
    if (const auto error = json.optional("error")) meter.error = step_of(*error, what);
    if (range) meter.error += decode_part(*of_range, 0, 0.5) * step_of(*range, what);
    if (const auto error = json.optional("error_of_reading"))
      meter.error_of_reading = decode_part(*error, 0, 0.5);
    if (const auto step = json.optional("reads_to")) meter.reads_to = step_of(*step, what);
    if (meter.error < 0 || meter.reads_to < 0) json.refuse("figures that are not below 0");
    return meter;
  }

  std::vector<JsonReader> list_;
  std::set<std::size_t> used_;
};

struct Side {
  Meter gauge;
  Length height, bore;
};

Side read_side(const JsonReader& json, Instruments& instruments) {
  json.allow_only({"gauge", "height", "bore"});
  return {instruments.meter(json.required("gauge"), Measures::pressure),
          decode_length(json.required("height"), -100, 100), decode_length(json.required("bore"), 1e-3, 10)};
}

AbsolutePressure read_atmosphere(const JsonReader& json) {
  const auto altitude = json.optional("altitude"), atmosphere = json.optional("atmosphere");
  if (altitude && atmosphere) altitude->refuse("the altitude or the atmosphere, not both");
  if (atmosphere)
    return decode_written(*atmosphere, Kind::pressure_absolute).quantity().as<AbsolutePressure>();
  const Length height = altitude ? decode_length(*altitude, -500, 9000) : metres(0);
  return seal::standard_atmosphere(height);
}

void read_motor(const JsonReader& json, PerformanceTest& test) {
  json.allow_only({"efficiency", "efficiency_error", "phases"});
  if (const auto e = json.optional("efficiency")) test.rig.motor_efficiency = decode_part(*e, 0.05, 1);
  if (const auto e = json.optional("efficiency_error")) test.motor_efficiency_error = decode_part(*e, 0, 0.3);
  if (const auto phases = json.optional("phases")) {
    test.rig.phases = static_cast<int>(phases->integer(1, 3));
    if (test.rig.phases == 2) phases->refuse("1 or 3");
  }
}

void read_power(const JsonReader& json, TestPoint& point) {
  if (const auto p = json.optional("power")) point.shaft_power = watts(decode_positive(*p, Kind::power).si);
  if (const auto t = json.optional("torque"))
    point.torque = newton_metres(decode_positive(*t, Kind::torque).si);
  if (const auto p = json.optional("input_power"))
    point.input_power = watts(decode_positive(*p, Kind::power).si);
  const auto voltage = json.optional("voltage");
  const auto current = json.optional("current"), factor = json.optional("power_factor");
  if (!voltage && !current && !factor) return;
  point.supply = hydraulics::SupplyReading{decode_voltage(json.required("voltage")),
                                           decode_current(json.required("current")),
                                           json.required("power_factor").number()};
}

TestPoint read_point(const JsonReader& json, PumpTestSheet& sheet) {
  json.allow_only({"flow", "suction", "discharge", "speed", "temperature", "power", "torque", "input_power",
                   "voltage", "current", "power_factor"});
  TestPoint point;
  const Written flow = decode_written(json.required("flow"), Kind::volume_flow);
  point.flow = cubic_metres_per_second(flow.si);
  if (sheet.flow_unit == nullptr) sheet.flow_unit = flow.unit;
  sheet.suction.push_back(decode_gauge(json.required("suction")));
  sheet.discharge.push_back(decode_gauge(json.required("discharge")));
  point.suction = {pascals(sheet.suction.back().si)};
  point.discharge = {pascals(sheet.discharge.back().si)};
  point.speed = radians_per_second(decode_positive(json.required("speed"), Kind::speed).si);
  point.temperature =
      decode_written(json.required("temperature"), Kind::temperature).quantity().as<Temperature>();
  read_power(json, point);
  return point;
}

// The instruments that the points' way of measuring power needs.
void read_power_meters(const JsonReader& json, PerformanceTest& test, Instruments& instruments) {
  const TestPoint& first = test.points.front();
  auto& m = test.meters;
  for (const char* key : {"power_meter", "voltmeter", "ammeter", "power_factor_meter"})
    instruments.leave(json.optional(key));
  if (first.shaft_power || first.input_power)
    m.power = instruments.meter(json.required("power_meter"), Measures::power);
  if (first.torque) m.power = instruments.meter(json.required("power_meter"), Measures::torque);
  if (first.supply) {
    m.voltage = instruments.meter(json.required("voltmeter"), Measures::voltage);
    m.current = instruments.meter(json.required("ammeter"), Measures::current);
    m.power_factor = instruments.meter(json.required("power_factor_meter"), Measures::power_factor);
  }
  const auto same_way = [&](const TestPoint& p) {
    return p.shaft_power.has_value() == first.shaft_power.has_value() &&
           p.torque.has_value() == first.torque.has_value() &&
           p.input_power.has_value() == first.input_power.has_value() &&
           p.supply.has_value() == first.supply.has_value();
  };
  if (!std::all_of(test.points.begin(), test.points.end(), same_way))
    json.required("points").refuse("points whose power was measured in one and the same way");
}

PumpTestSheet read_rig(const JsonReader& json, Instruments& instruments) {
  json.allow_only({"liquid", "altitude", "atmosphere", "rated_speed", "suction", "discharge", "flow_meter",
                   "tachometer", "power_meter", "voltmeter", "ammeter", "power_factor_meter", "motor",
                   "instruments", "head_curve", "power_curve", "points"});
  PumpTestSheet sheet;
  PerformanceTest& test = sheet.test;
  test.liquid = decode_liquid(json.required("liquid"));
  sheet.liquid = test.liquid->name();
  test.rig.atmosphere = read_atmosphere(json);
  test.rated_speed = radians_per_second(decode_positive(json.required("rated_speed"), Kind::speed).si);
  const Side suction = read_side(json.required("suction"), instruments);
  const Side discharge = read_side(json.required("discharge"), instruments);
  test.rig.suction_height = suction.height;
  test.rig.suction_bore = suction.bore;
  test.rig.discharge_height = discharge.height;
  test.rig.discharge_bore = discharge.bore;
  test.meters.suction = suction.gauge;
  test.meters.discharge = discharge.gauge;
  sheet.one_gauge = suction.gauge.id == discharge.gauge.id;
  test.meters.flow = instruments.meter(json.required("flow_meter"), Measures::flow);
  test.meters.speed = instruments.meter(json.required("tachometer"), Measures::speed);
  if (const auto motor = json.optional("motor")) read_motor(*motor, test);
  if (const auto curve = json.optional("head_curve")) test.head_curve = decode_curve(*curve);
  if (const auto curve = json.optional("power_curve")) test.power_curve = decode_curve(*curve);
  return sheet;
}

}  // namespace

Written decode_gauge(const JsonReader& json) {
  std::string text = json.text(64);
  for (const std::string_view word : {" vacuum", " vac"})
    if (text.ends_with(word)) {
      const std::string amount = text.substr(0, text.size() - word.size());
      Written written = placed(json.pointer(), [&] {
        return parse_written(amount, Kind::pressure_difference, {.field = json.field()});
      });
      if (written.si < 0 || written.si > 101'325) json.refuse("a vacuum from 0 to 29.92 inHg");
      written.text = text;
      written.si = -written.si;
      written.number = -written.number;
      return written;
    }
  return decode_written(json, Kind::pressure_gauge);
}

hydraulics::Voltage decode_voltage(const JsonReader& json) {
  return hydraulics::Voltage::from_value(electrical(json, 'V', "a voltage such as 460 V"));
}

hydraulics::Current decode_current(const JsonReader& json) {
  return hydraulics::Current::from_value(electrical(json, 'A', "a current such as 14.2 A"));
}

std::shared_ptr<const fluid::Liquid> decode_liquid(const JsonReader& json) {
  json.allow_only({"name", "mass_fraction", "salinity"});
  fluid::LiquidName name{.name = json.required("name").text(80)};
  if (const auto x = json.optional("mass_fraction")) name.mass_fraction = decode_part(*x);
  if (const auto x = json.optional("salinity")) name.salinity = decode_part(*x);
  return placed(json.pointer(), [&] { return fluid::liquid_by_name(name); });
}

hydraulics::CurveChoice decode_curve(const JsonReader& json) {
  json.allow_only({"kind", "degree"});
  CurveChoice choice;
  choice.kind = json.required("kind").word({"polynomial", "pchip"}) == "pchip" ? CurveKind::pchip
                                                                               : CurveKind::polynomial;
  const auto degree = json.optional("degree");
  if (choice.kind == CurveKind::pchip) {
    if (degree) degree->refuse("this key with the kind polynomial only");
  } else if (degree) {
    choice.degree = static_cast<int>(degree->integer(1, hydraulics::highest_degree));
  }
  return choice;
}

PumpTestSheet pump_test_plan(const JsonReader& json) {
  Instruments instruments(json);
  return read_rig(json, instruments);
}

PumpTestSheet decode_pump_test(const JsonReader& json) {
  Instruments instruments(json);
  PumpTestSheet sheet = read_rig(json, instruments);
  PerformanceTest& test = sheet.test;
  const auto points = json.required("points");
  for (const auto& point : points.items(points_max))
    test.points.push_back(read_point(point, sheet));
  if (test.points.size() < 3) points.refuse("3 points or more");
  read_power_meters(json, test, instruments);
  instruments.refuse_unused();
  const bool inch = sheet.flow_unit->system == System::inch;
  sheet.head_unit = &unit_with_symbol(inch ? "ft" : "m", Kind::length);
  sheet.power_unit = &unit_with_symbol(inch ? "hp" : "kW", Kind::power);
  return sheet;
}

}  // namespace pumpwright::job
