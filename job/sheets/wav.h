// A signal as a recorder wrote it into a WAV file.
#pragma once

#include <string_view>

#include "job/sheets/vibration_signal.h"

namespace pumpwright::job {

// RIFF/WAVE with integers of 16, 24 or 32 bits or floats of 32 bits (RFC 2361 codes 1 and 3, plain or
// extensible), `channel` from 1; of integers, 1 is full scale. Throws BadInput naming what is wrong with the
// file.
RecordedSignal read_wav(std::string_view bytes, int channel);

}  // namespace pumpwright::job
