// Any bytes as a job file: refused with a BadInput, or judged.
#include <cstdint>
#include <string_view>

#include "catalog/embedded.h"
#include "engine/quantity/bad_input.h"
#include "job/job_file.h"
#include "job/judgement.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pumpwright;
  static const Catalog catalog = Catalog::load(embedded_catalog());
  static const std::vector<NamedBytes> steps = files_under(embedded_catalog(), "steps/");
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);  // NOLINT: bytes as text
  try {
    const job::JobFile file = job::decode_job_file(bytes);
    const job::Snapshot snapshot = job::snapshot_of(file, catalog, steps, "fuzz");
    job::judge(snapshot, job::fold(snapshot.plan, file.events));
  } catch (const BadInput&) {  // what a file gets wrong
  }
  return 0;
}
