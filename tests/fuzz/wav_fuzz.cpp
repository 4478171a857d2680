// Any bytes as a recording: refused with a BadInput, or drawn as a spectrum whose every stroke is somewhere.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "engine/quantity/bad_input.h"
#include "job/sheets/vibration_wording.h"
#include "job/sheets/wav.h"

namespace {

using namespace pumpwright;

void draw(const job::RecordedSignal& recording) {
  job::VibrationSheet sheet;
  sheet.pump.speed = radians_per_second(300);
  job::SignalAsked asked{"fuzz", vibration::Measures::acceleration, {}};
  asked.settings.segment = 256;
  asked.settings.overlap = 128;
  SerialExecutor executor;
  const auto finding = job::signal_finding(sheet, asked, recording, executor);
  const auto picture = job::spectrum_picture(sheet, finding);
  for (const auto& stroke : picture.strokes)
    for (const auto& point : stroke.points)
      if (!std::isfinite(point.x) || !std::isfinite(point.y)) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);  // NOLINT: bytes as text
  try {
    draw(job::read_wav(bytes, 1));
  } catch (const BadInput&) {  // what a file gets wrong
  }
  return 0;
}
