#include "cli/program_identity.h"

#include <cstddef>
#include <cstdint>
#include <cstring>

#include <elf.h>
#include <fmt/format.h>
#include <link.h>

namespace pumpwright {
namespace {

constexpr std::size_t aligned(std::size_t size) {
  return (size + 3U) & ~std::size_t{3};
}

std::string hexadecimal(const unsigned char* bytes, std::size_t size) {
  std::string out;
  for (std::size_t i = 0; i < size; ++i)
    out += fmt::format("{:02x}", bytes[i]);
  return out;
}

// Looks through one segment of notes; each is a header, a name and a description, both padded to four bytes.
std::string build_id_among(const unsigned char* notes, std::size_t size) {
  while (size >= sizeof(ElfW(Nhdr))) {
    ElfW(Nhdr) header;
    std::memcpy(&header, notes, sizeof header);
    const std::size_t description_at = sizeof header + aligned(header.n_namesz);
    const std::size_t whole = description_at + aligned(header.n_descsz);
    if (whole > size) break;
    const unsigned char* name = notes + sizeof header;
    if (header.n_type == NT_GNU_BUILD_ID && header.n_namesz == 4 && std::memcmp(name, "GNU", 4) == 0)
      return hexadecimal(notes + description_at, header.n_descsz);
    notes += whole;
    size -= whole;
  }
  return {};
}

// The first object the loader reports is the executable itself; a result other than 0 ends the round.
int look_at_executable(dl_phdr_info* object, std::size_t /*size*/, void* found) {
  auto& build_id = *static_cast<std::string*>(found);
  for (int i = 0; i < object->dlpi_phnum && build_id.empty(); ++i) {
    const auto& segment = object->dlpi_phdr[i];
    if (segment.p_type != PT_NOTE) continue;
    const auto address = static_cast<std::uintptr_t>(object->dlpi_addr + segment.p_vaddr);
    // The loader hands out addresses as integers.
    const auto* notes = reinterpret_cast<const unsigned char*>(address);  // NOLINT(performance-no-int-to-ptr)
    build_id = build_id_among(notes, segment.p_memsz);
  }
  return 1;
}

}  // namespace

std::string_view program_version() {
  return PUMPWRIGHT_VERSION;
}

std::string program_build_id() {
  std::string build_id;
  dl_iterate_phdr(look_at_executable, &build_id);
  return build_id;
}

std::string program_identity() {
  const auto build_id = program_build_id();
  if (build_id.empty()) return fmt::format("pumpwright {}", program_version());
  return fmt::format("pumpwright {} (build {})", program_version(), build_id);
}

}  // namespace pumpwright
