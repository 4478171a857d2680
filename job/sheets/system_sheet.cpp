#include "job/sheets/system_sheet.h"

#include "job/decode.h"
#include "job/sheets/pump_test_sheet.h"

namespace pumpwright::job {
namespace {

constexpr std::int64_t version = 1;

double flow_m3_s(const JsonReader& json, SystemSheet& file) {
  const Written written = decode_written(json, Kind::volume_flow);
  if (written.si < 0) json.refuse("a flow not below 0");
  if (file.flow_unit == nullptr) file.flow_unit = written.unit;
  return written.si;
}

Speed speed_of(const JsonReader& json) {
  return radians_per_second(decode_positive(json, Kind::speed).si);
}

void read_pump(const JsonReader& json, SystemSheet& file) {
  json.allow_only({"speed", "stages", "head_curve", "power_curve", "best", "points"});
  file.pump_speed = speed_of(json.required("speed"));
  if (const auto n = json.optional("stages")) file.stages = static_cast<int>(n->integer(1, 100));
  if (const auto c = json.optional("head_curve")) file.head_curve = decode_curve(*c);
  if (const auto c = json.optional("power_curve")) file.power_curve = decode_curve(*c);
  const auto points = json.required("points");
  for (const auto& point : points.items(200)) {
    point.allow_only({"flow", "head", "power"});
    WaterPoint p{flow_m3_s(point.required("flow"), file),
                 decode_length(point.required("head"), 1e-3, 1e5).value(),
                 {}};
    if (const auto power = point.optional("power")) p.power_w = decode_positive(*power, Kind::power).si;
    if (!file.pump.empty() && p.power_w.has_value() != file.pump.front().power_w.has_value())
      point.refuse("power at every point or at none");
    file.pump.push_back(p);
  }
  if (const auto best = json.optional("best")) {
    best->allow_only({"flow", "head"});
    file.best = hydraulics::WaterBest{cubic_metres_per_second(flow_m3_s(best->required("flow"), file)),
                                      decode_length(best->required("head"), 1e-3, 1e5), file.pump_speed};
  }
}

hydraulics::Pipe read_pipe(const JsonReader& json) {
  json.allow_only({"length", "bore", "roughness", "fittings"});
  hydraulics::Pipe pipe;
  pipe.length = decode_length(json.required("length"), 0, 1e6);
  pipe.bore = decode_length(json.required("bore"), 1e-3, 10);
  pipe.roughness = decode_length(json.required("roughness"), 0, pipe.bore.value() / 10);
  if (const auto k = json.optional("fittings")) {
    pipe.fittings = k->number();
    if (!(pipe.fittings >= 0 && pipe.fittings <= 1e6)) k->refuse("a sum of loss factors from 0 to 1e6");
  }
  return pipe;
}

void read_plant(const JsonReader& json, SystemSheet& file) {
  json.allow_only({"static_head", "pipes", "points"});
  if (const auto points = json.optional("points")) {
    if (json.optional("static_head") || json.optional("pipes"))
      points->refuse("measured points, or a static head with pipes, not both");
    std::vector<double> flow, head;
    for (const auto& point : points->items(200)) {
      point.allow_only({"flow", "head"});
      flow.push_back(flow_m3_s(point.required("flow"), file));
      head.push_back(decode_length(point.required("head"), -1e4, 1e5).value());
    }
    file.plant.measured = placed(points->pointer(), [&] {
      return hydraulics::FlowCurve::through(flow, head, {hydraulics::CurveKind::pchip, 0});
    });
    return;
  }
  file.plant.static_head = decode_length(json.required("static_head"), -1e4, 1e4);
  for (const auto& pipe : json.required("pipes").items(100))
    file.plant.pipes.push_back(read_pipe(pipe));
}

void read_motor_readings(const JsonReader& json, SystemMotor& motor) {
  json.allow_only({"speed", "current", "input_power", "lines"});
  if (const auto x = json.optional("speed")) motor.read.speed = speed_of(*x);
  if (const auto x = json.optional("current")) motor.read.current = decode_current(*x);
  if (const auto x = json.optional("input_power"))
    motor.read.input = watts(decode_positive(*x, Kind::power).si);
  if (const auto x = json.optional("lines")) {
    const auto lines = x->items(3);
    if (lines.size() != 3) x->refuse("the three voltages between lines");
    motor.read.lines = {decode_voltage(lines[0]), decode_voltage(lines[1]), decode_voltage(lines[2])};
  }
}

SystemMotor read_motor(const JsonReader& json) {
  json.allow_only({"power", "service_factor", "on_drive", "synchronous_speed", "speed", "current",
                   "no_load_current", "efficiency", "measured"});
  SystemMotor motor;
  const Written rated = decode_positive(json.required("power"), Kind::power);
  motor.rated = watts(rated.si);
  motor.plate = rated.text;
  if (const auto x = json.optional("service_factor")) {
    motor.service_factor = x->number();
    if (!(motor.service_factor >= 1 && motor.service_factor <= 2)) x->refuse("a service factor from 1 to 2");
  }
  motor.on_drive = json.required("on_drive").boolean();
  if (const auto x = json.optional("synchronous_speed")) motor.synchronous = speed_of(*x);
  if (const auto x = json.optional("speed")) motor.nameplate_speed = speed_of(*x);
  if (const auto x = json.optional("current")) motor.nameplate_current = decode_current(*x);
  if (const auto x = json.optional("no_load_current")) motor.no_load_current = decode_current(*x);
  if (const auto x = json.optional("efficiency")) motor.efficiency = decode_part(*x, 0.05, 1);
  if (const auto x = json.optional("measured")) read_motor_readings(*x, motor);
  return motor;
}

void read_arrangement(const JsonReader& json, SystemSheet& file) {
  json.allow_only({"parallel", "series", "speed"});
  if (const auto n = json.optional("parallel")) file.parallel = static_cast<int>(n->integer(1, 20));
  if (const auto n = json.optional("series")) file.series = static_cast<int>(n->integer(1, 20));
  if (const auto n = json.optional("speed")) {
    file.speed = speed_of(*n) / file.pump_speed;
    if (!(file.speed >= 0.2 && file.speed <= 1.3)) n->refuse("20 % to 130 % of the curve's speed");
  }
}

}  // namespace

SystemSheet decode_system(const JsonReader& json) {
  json.allow_only({"format", "version", "name", "note", "liquid", "temperature", "viscosity", "pump", "plant",
                   "arrangement", "wanted_flow", "motor", "viscous_duty"});
  (void)json.required("format").word({"pumpwright-system"});
  (void)json.required("version").integer(version, version);
  if (const auto note = json.optional("note")) (void)note->text();
  SystemSheet file;
  file.name = json.required("name").text(200);
  file.liquid = decode_liquid(json.required("liquid"));
  file.temperature =
      decode_written(json.required("temperature"), Kind::temperature).quantity().as<Temperature>();
  if (const auto x = json.optional("viscosity"))
    file.own_viscosity = square_metres_per_second(decode_positive(*x, Kind::kinematic_viscosity).si);
  read_pump(json.required("pump"), file);
  read_plant(json.required("plant"), file);
  if (const auto x = json.optional("arrangement")) read_arrangement(*x, file);
  if (const auto x = json.optional("wanted_flow"))
    file.wanted_flow = cubic_metres_per_second(decode_positive(*x, Kind::volume_flow).si);
  if (const auto x = json.optional("motor")) file.motor = read_motor(*x);
  if (const auto x = json.optional("viscous_duty")) {
    x->allow_only({"flow", "head"});
    file.viscous_duty = {cubic_metres_per_second(decode_positive(x->required("flow"), Kind::volume_flow).si),
                         decode_length(x->required("head"), 1e-3, 1e5)};
  }
  return file;
}

PumpUnits units_of(const SystemSheet& sheet) {
  const bool inch = sheet.flow_unit->system == System::inch;
  return {sheet.flow_unit, &unit_with_symbol(inch ? "ft" : "m", Kind::length),
          &unit_with_symbol(inch ? "hp" : "kW", Kind::power),
          &unit_with_symbol(inch ? "in" : "mm", Kind::length)};
}

}  // namespace pumpwright::job
