// Any bytes as a record: refused with a BadInput, or examined and, whatever it holds, never proven by a key
// that did not seal it.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "engine/quantity/bad_input.h"
#include "shop/record.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pumpwright;
  static const std::string stranger = shop::SigningKey::generate().public_key();
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);  // NOLINT: bytes as text
  try {
    const shop::Record record = shop::decode_record(bytes);
    if (shop::prove(record, stranger, std::nullopt).holds()) std::abort();
    shop::job_in(record);
  } catch (const BadInput&) {  // what a file gets wrong
  }
  return 0;
}
