// What a vibration's zones and tones are, in words: the command prints them, the page shows them.
#pragma once

#include <vector>

#include "job/sheet_picture.h"
#include "job/sheets/sheet_result.h"
#include "job/sheets/vibration_signal.h"

namespace pumpwright::job {

// What a zone says of running on, in the standard's sense.
Text zone_text(vibration::Zone zone);

// "vane pass, or 2 × turning"; that it is nothing that is expected.
Text may_be_text(const FoundTone& tone);

// What a line commonly points to (common practice, no proof).
Text points_to(vibration::LineOf of);

// Overall velocity, then every tone with its number in the picture.
std::vector<SheetLine> signal_lines(const VibrationSheet& sheet, const SignalFinding& finding);

// Velocity over frequency, the strongest tones numbered.
SheetPicture spectrum_picture(const VibrationSheet& sheet, const SignalFinding& finding);

constexpr std::size_t numbered_tones = 6;

}  // namespace pumpwright::job
