// What a performance test came to, in words: the command prints them, a job's check and its record show them.
#pragma once

#include "job/sheets/performance_finding.h"
#include "job/sheets/pump_units.h"

namespace pumpwright::job {

// "grade 2B", or that the tolerances are the contract's own.
Text grade_text(const PerformanceSheet& sheet, const hydraulics::GradeFinding& grade);

// Why the grade's verdict is what it is, and where to begin when nothing is proven.
Text reason_text(const PerformanceFinding& finding, const hydraulics::GradeFinding& grade);

// The speed or the cut that would meet the head exactly, with its chance of undershooting. Needs
// finding.remedy.
Text remedy_text(const PerformanceSheet& sheet, const PerformanceFinding& finding);

// What the motor gives, where, and what the supply leaves it. Needs finding.driver.
Text driver_text(const PerformanceSheet& sheet, const PerformanceFinding& finding);

// "-3.9 %".
std::string signed_percent(double fraction);

}  // namespace pumpwright::job
