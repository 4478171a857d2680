// The tag that hangs on the pump: its QR code, and job number, customer, pump and serial number in plain
// letters.
#pragma once

#include <string>

#include "job/job_file.h"

namespace pumpwright::server {

// An SVG of 90 mm by 40 mm. `record_hash` in hexadecimal. Throws BadInput when number and hash do not fit a
// QR code.
std::string tag_svg(const job::JobHeader& header, const std::string& record_hash);

}  // namespace pumpwright::server
