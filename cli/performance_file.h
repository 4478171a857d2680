// The file of `pumpwright performance`: a test, what was promised, and what else was measured.
// docs/performance.schema.json publishes the format.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/hydraulics/acceptance.h"
#include "engine/hydraulics/npsh.h"
#include "engine/hydraulics/trim.h"
#include "job/sheets/pump_test_sheet.h"

namespace pumpwright {

struct GuaranteeFile {
  hydraulics::Guarantee promised;
  std::optional<hydraulics::Grade>
      grade;  // agreed; decides the exit status. Absent: all are shown, none decides
  hydraulics::GradeRule rule;
  std::string confirmed_by;  // who compared the grade's figures with the standard; empty: nobody
};

struct NpshFile {
  std::optional<hydraulics::SuctionSide> plant;  // what the plant offers
  std::vector<hydraulics::SuppressionPoint> run;
  std::size_t plateau = 2;
  hydraulics::SuppressionDoubt doubt;
};

struct PerformanceFile {
  std::string name;
  job::PumpTestSheet test;
  int stages = 1;
  std::optional<GuaranteeFile> guarantee;
  std::optional<NpshFile> npsh;
  std::optional<hydraulics::Impeller> impeller;
};

// Throws BadInput whose place is a JSON pointer.
PerformanceFile decode_performance_file(std::string_view bytes);

hydraulics::Impeller decode_impeller(const job::JsonReader& json);

}  // namespace pumpwright
