// The tag that ties paper to record: a QR code of the job number and the record's hash.
#pragma once

#include <string>
#include <vector>

#include "report/canvas.h"

namespace pumpwright::report {

// What the tag says: "G-2117 4f0c…", job number and hash with one space between.
std::string qr_text(const std::string& job_number, const std::string& record_hash);

// Dark modules of the QR code of `text`, row by row; square, without the quiet zone. Error correction level
// M (ISO/IEC 18004). Throws BadInput when the text is empty or longer than a code can hold (2331 bytes).
std::vector<std::vector<bool>> qr_modules(const std::string& text);

// Draws the code with its four-module quiet zone into a square of the given size.
void draw_qr(Canvas& canvas, Point at, double size, const std::string& text);

}  // namespace pumpwright::report
