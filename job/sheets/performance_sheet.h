// A pump's performance test with what was promised and what else was measured: the file of `pumpwright
// performance`, and a job's sheet of that name. docs/performance.schema.json publishes the format.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/hydraulics/acceptance.h"
#include "engine/hydraulics/motor_load.h"
#include "engine/hydraulics/npsh.h"
#include "engine/hydraulics/trim.h"
#include "job/sheets/pump_test_sheet.h"

namespace pumpwright::job {

struct GuaranteeSheet {
  hydraulics::Guarantee promised;
  Written flow, head;  // as promised
  std::optional<hydraulics::Grade>
      grade;  // agreed; decides the exit status. Absent: all are shown, none decides
  hydraulics::GradeRule rule;
  std::string confirmed_by;  // who compared the grade's figures with the standard; empty: nobody
};

struct NpshSheet {
  std::optional<hydraulics::SuctionSide> plant;  // what the plant offers
  std::vector<hydraulics::SuppressionPoint> run;
  std::size_t plateau = 2;
  hydraulics::SuppressionDoubt doubt;
};

// The motor that drives it, by its plate, and what its supply was during the test.
struct DriverSheet {
  Power rated_power;
  double service_factor = 1;
  std::optional<std::array<hydraulics::Voltage, 3>> lines;  // between the phases
};

struct PerformanceSheet {
  std::string name;
  PumpTestSheet test;
  int stages = 1;
  std::optional<GuaranteeSheet> guarantee;
  std::optional<NpshSheet> npsh;
  std::optional<hydraulics::Impeller> impeller;
  std::optional<DriverSheet> driver;
};

// Throws BadInput whose place is a JSON pointer.
PerformanceSheet decode_performance(const JsonReader& json);

// What a plan knows of it: everything but the points.
PerformanceSheet performance_plan(const JsonReader& json);

hydraulics::Impeller decode_impeller(const JsonReader& json);

}  // namespace pumpwright::job
