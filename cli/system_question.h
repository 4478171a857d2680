// What `pumpwright system` was asked, and what it found. docs/system.schema.json publishes the file's format.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fluid/liquid.h"
#include "engine/hydraulics/motor_load.h"
#include "engine/hydraulics/operating_point.h"
#include "engine/hydraulics/viscosity_correction.h"
#include "engine/metrology/decision.h"
#include "engine/quantity/parse.h"

namespace pumpwright {

// One point of a pump's curve on cold water.
struct WaterPoint {
  double flow_m3_s = 0, head_m = 0;
  std::optional<double> power_w;  // of the shaft
};

struct MotorReadings {
  std::optional<Speed> speed;
  std::optional<hydraulics::Current> current;
  std::optional<Power> input;
  std::optional<std::array<hydraulics::Voltage, 3>> lines;
};

struct MotorFile {
  Power rated;
  double service_factor = 1;
  bool on_drive = false;
  std::optional<Speed> synchronous, nameplate_speed;
  std::optional<hydraulics::Current> nameplate_current, no_load_current;
  std::optional<double> efficiency;
  MotorReadings read;
};

struct SystemFile {
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
  std::optional<MotorFile> motor;
  std::optional<std::pair<VolumeFlow, Length>> viscous_duty;  // to find the water duty of
  const Unit* flow_unit = nullptr;
};

struct SystemQuestion {
  std::string file;
  SystemFile sheet;
};

enum class MotorReason {
  no_motor,
  within_rating,
  in_service_factor,
  over_service_factor,
  power_unknown,
  no_point
};

struct SystemFinding {
  double density_kg_m3 = 0, viscosity_m2_s = 0;
  std::optional<hydraulics::ViscosityFactors> factors;  // when the liquid is thick enough to count
  std::optional<hydraulics::WaterDuty> water_duty;
  hydraulics::OperatingPoint point;
  std::vector<hydraulics::PipeLoss> losses;             // of the plant's pipes there
  std::optional<hydraulics::OperatingPoint> one_alone;  // of several pumps
  std::optional<double> throttle_m, speed_for_wanted;
  std::optional<double> power_w, power_peak_w, efficiency;  // of one pump; the peak over all known flows
  std::optional<double> load_by_slip, load_by_current, load_by_power, unbalance, derating;
  Outcome outcome = Outcome::unproven;
  MotorReason reason = MotorReason::no_motor;
};

// Throws BadInput whose place is a JSON pointer.
SystemFile decode_system_file(std::string_view bytes);

SystemFinding answer(const SystemQuestion& question);

std::string system_text(const SystemQuestion& question, const SystemFinding& finding, bool colour);
std::string system_json(const SystemQuestion& question, const SystemFinding& finding);

// "no-motor", "within-rating", "in-service-factor", "over-service-factor", "power-unknown", "no-point".
const char* word_for(MotorReason reason);

}  // namespace pumpwright
