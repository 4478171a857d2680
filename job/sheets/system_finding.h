// Where pump and plant meet and how hard the motor works there, found from a system's sheet.
#pragma once

#include <optional>
#include <vector>

#include "engine/metrology/decision.h"
#include "job/sheets/system_sheet.h"

namespace pumpwright::job {

enum class MotorReason {
  no_motor,
  within_rating,
  in_service_factor,
  over_service_factor,
  supply_too_uneven,
  power_unknown,
  no_point
};

// Loads of the motor as parts of its rated power.
struct MotorLoads {
  std::optional<double> by_curve;  // the pump's power where pump and plant meet
  std::optional<double> by_power, by_current, by_slip;
};

struct SystemFinding {
  double density_kg_m3 = 0, viscosity_m2_s = 0;
  std::optional<hydraulics::ViscosityFactors> factors;  // when the liquid is thick enough to count
  std::optional<hydraulics::WaterDuty> water_duty;
  hydraulics::OperatingPoint point;
  std::optional<hydraulics::PumpGroup> group;           // all pumps on the liquid at hand
  hydraulics::Plant plant;                              // with the liquid at hand
  std::vector<hydraulics::PipeLoss> losses;             // of the plant's pipes there
  std::optional<hydraulics::OperatingPoint> one_alone;  // of several pumps
  std::optional<double> throttle_m, speed_for_wanted;
  std::optional<double> power_w, power_peak_w, efficiency;  // of one pump; the peak over all known flows
  MotorLoads loads;
  std::optional<double> unbalance, derating;
  // Pass: pump and plant meet, and neither the curve nor the measured input asks more of the motor than its
  // rating on this supply. Readings of current and slip are too rough to decide.
  Outcome outcome = Outcome::unproven;
  MotorReason reason = MotorReason::no_motor;

  // The larger of what the curve and the wattmeter say; nothing when neither is known.
  std::optional<double> deciding_load() const;
  // What the wattmeter says lies further from the curve than meters, nameplate and curve explain.
  bool loads_disagree() const;
};

// BadInput as the engine's, with places in the sheet.
SystemFinding system_finding(const SystemSheet& sheet);

// "no-motor", "within-rating", "in-service-factor", "over-service-factor", "supply-too-uneven",
// "power-unknown", "no-point".
const char* word_for(MotorReason reason);

}  // namespace pumpwright::job
