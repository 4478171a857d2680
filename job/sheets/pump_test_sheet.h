// The part of a file that says how a pump was tested: rig, instruments, liquid and points. The files of
// `pumpwright performance` and `pumpwright trim` share it under the key "test".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/hydraulics/performance_test.h"
#include "engine/quantity/parse.h"
#include "job/json_quantity.h"

namespace pumpwright::job {

struct PumpTestSheet {
  hydraulics::PerformanceTest test;
  std::string liquid;
  // Units to answer in: those the first point is written in.
  const Unit* flow_unit = nullptr;
  const Unit* head_unit = nullptr;          // m or ft, by the system of the flow
  const Unit* power_unit = nullptr;         // kW or hp; of the power when it is written
  bool one_gauge = false;                   // the same gauge on both sides
  std::vector<Written> suction, discharge;  // as read, one a point
};

// Throws BadInput whose place is a JSON pointer.
PumpTestSheet decode_pump_test(const JsonReader& json);

// All but the points, and so no units to answer in: what is known before the test.
PumpTestSheet pump_test_plan(const JsonReader& json);

// A gauge reading such as "12 psig", "-0.2 bar(g)", or as a vacuum gauge says it: "5 inHg vacuum".
Written decode_gauge(const JsonReader& json);

// "460 V", "11 kV"; "14.2 A".
hydraulics::Voltage decode_voltage(const JsonReader& json);
hydraulics::Current decode_current(const JsonReader& json);

// {"kind": "polynomial", "degree": 2} or {"kind": "pchip"}.
hydraulics::CurveChoice decode_curve(const JsonReader& json);

// {"name": "water"}, with "mass_fraction" or "salinity" where the liquid has one.
std::shared_ptr<const fluid::Liquid> decode_liquid(const JsonReader& json);

}  // namespace pumpwright::job
