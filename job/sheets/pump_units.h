// How figures of a pump are written for people: in the units of its test, each with what it is worth.
#pragma once

#include <string>

#include "engine/hydraulics/figure_coverage.h"
#include "job/sheets/pump_test_sheet.h"

namespace pumpwright::job {

struct PumpUnits {
  const Unit* flow = nullptr;
  const Unit* head = nullptr;
  const Unit* power = nullptr;
  const Unit* diameter = nullptr;  // mm or in

  std::string flow_text(double m3_s) const;
  std::string head_text(double m) const;
  std::string power_text(double w) const;
  std::string diameter_text(double m) const;
  // "30.12 m ± 0.41 m": the half-width of 95 % coverage.
  std::string head_text(const hydraulics::Figure& figure) const;
  std::string flow_text(const hydraulics::Figure& figure) const;
  std::string power_text(const hydraulics::Figure& figure) const;
};

PumpUnits units_of(const PumpTestSheet& sheet);

// "73.5 %", and "73.5 % ± 1.2 %" in points of percentage.
std::string percent_text(double fraction, int decimals = 1);
std::string percent_text(const hydraulics::Figure& figure);

// A probability as people say it: "83 %", "under 0.1 %", "over 99.9 %".
std::string chance_text(double probability);

}  // namespace pumpwright::job
