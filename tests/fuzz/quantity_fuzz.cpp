// Any bytes as a quantity a hand wrote: refused with a BadInput, or read so that the lossless form reads
// back.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "engine/quantity/format.h"
#include "engine/quantity/kind.h"
#include "engine/quantity/parse.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pumpwright;
  if (size == 0) return 0;
  const auto kinds = all_kinds();
  const Kind kind = kinds[data[0] % kinds.size()].kind;
  const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);  // NOLINT: bytes as text
  try {
    const Written written = parse_written(text, kind, {.field = "reading", .default_unit = nullptr});
    const std::string lossless = format_lossless(written.quantity(), *written.unit);
    const Written again = parse_written(lossless, kind, {.field = "reading", .default_unit = nullptr});
    if (again.si != written.si) std::abort();
  } catch (const BadInput&) {  // what a hand gets wrong
  }
  return 0;
}
