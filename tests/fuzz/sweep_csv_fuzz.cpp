// Any bytes as a sweep's CSV file: refused with a BadInput, or read and evaluated.
#include <cstdint>
#include <string_view>

#include "cli/sweep_csv.h"
#include "engine/metrology/sweep.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pumpwright;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);  // NOLINT: bytes as text
  try {
    std::vector<SweepReading> readings;
    for (const auto& row : read_sweep_csv(bytes, unit_with_symbol("thou", Kind::length)))
      readings.push_back({radians(row.angle.si), metres(row.reading.si)});
    evaluate_sweep(readings, {}, nullptr);
  } catch (const BadInput&) {  // what a file gets wrong
  }
  return 0;
}
