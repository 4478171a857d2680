// A plant with its pumps and their motor: the file of `pumpwright system`, and a job's sheet of that name.
// docs/system.schema.json publishes the format.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/fluid/liquid.h"
#include "engine/hydraulics/motor_load.h"
#include "engine/hydraulics/operating_point.h"
#include "engine/hydraulics/viscosity_correction.h"
#include "job/json_reader.h"
#include "job/sheets/pump_units.h"

namespace pumpwright::job {

// One point of a pump's curve on cold water.
struct WaterPoint {
  double flow_m3_s = 0, head_m = 0;
  std::optional<double> power_w;  // of the shaft
};

// What was read at the motor while the pump ran the plant.
struct MotorReadings {
  std::optional<Speed> speed;
  std::optional<hydraulics::Current> current;
  std::optional<Power> input;
  std::optional<std::array<hydraulics::Voltage, 3>> lines;
};

struct SystemMotor {
  Power rated;
  std::string plate;          // the rated power as written
  double service_factor = 1;  // 1 to 2
  bool on_drive = false;      // fed by a variable-speed drive
  std::optional<Speed> synchronous, nameplate_speed;
  std::optional<hydraulics::Current> nameplate_current, no_load_current;
  std::optional<double> efficiency;  // at rated power
  MotorReadings read;
};

struct SystemSheet {
  std::string name;
  std::shared_ptr<const fluid::Liquid> liquid;
  Temperature temperature;
  std::optional<KinematicViscosity> own_viscosity;  // in place of the liquid's
  std::vector<WaterPoint> pump;
  hydraulics::CurveChoice head_curve, power_curve;
  Speed pump_speed;  // that the curve is for
  int stages = 1;
  std::optional<hydraulics::WaterBest> best;  // for the correction; taken from the curve when power is known
  hydraulics::Plant plant;
  int parallel = 1, series = 1;
  double speed = 1;  // of the pumps over the curve's
  std::optional<VolumeFlow> wanted_flow;
  std::optional<SystemMotor> motor;
  std::optional<std::pair<VolumeFlow, Length>> viscous_duty;  // to find the water duty of
  const Unit* flow_unit = nullptr;
};

// Throws BadInput whose place is a JSON pointer.
SystemSheet decode_system(const JsonReader& json);

// The units it is answered in: those its first flow is written in.
PumpUnits units_of(const SystemSheet& sheet);

}  // namespace pumpwright::job
