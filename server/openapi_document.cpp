#include "server/openapi_document.h"

// The assembler takes the file in as it is; the build passes the root of the tree as its search path.
__asm__(
    ".section .rodata\n"
    ".global pumpwright_openapi_begin\n"
    ".global pumpwright_openapi_end\n"
    "pumpwright_openapi_begin:\n"
    ".incbin \"server/openapi.json\"\n"
    "pumpwright_openapi_end:\n"
    ".byte 0\n"
    ".previous\n");

extern "C" const char pumpwright_openapi_begin[];
extern "C" const char pumpwright_openapi_end[];

namespace pumpwright::server {

std::string_view openapi_document() {
  return {static_cast<const char*>(pumpwright_openapi_begin),
          static_cast<std::size_t>(pumpwright_openapi_end - pumpwright_openapi_begin)};
}

}  // namespace pumpwright::server
