// Every judged length of a job as a QIF 3.0 results document (ISO 23952:2020, Quality Information Framework):
// the form in which measuring rooms exchange dimensional results.
//
// A sweep judged by its TIR is a circular runout, a size over its points a diameter, any other length a
// length; instruments are measurement devices, the pump with its serial number is the actual component.
// Lengths in mm. Unproven becomes INDETERMINATE. What the standard has no place for (the reading as the hand
// wrote it, its expanded uncertainty, the reason of the verdict) stands in attributes. Confirmations,
// torques, pressures and bench tests are not dimensional results and stay out. The same record always gives
// the same bytes.
#pragma once

#include <string>

#include "report/build_record.h"

namespace pumpwright::report {

std::string readings_qif(const BuildRecordInput& input);

}  // namespace pumpwright::report
