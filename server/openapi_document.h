// The published description of the interface (server/openapi.json), as it is built into the program.
#pragma once

#include <string_view>

namespace pumpwright::server {

std::string_view openapi_document();

}  // namespace pumpwright::server
