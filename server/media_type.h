// Which files may hang on a job: pictures, PDF and recordings, told by their first bytes and not by what the
// sender says.
#pragma once

#include <string>
#include <string_view>

namespace pumpwright::server {

// "image/jpeg", "image/png", "image/webp", "application/pdf", "audio/wav"; empty for anything else.
std::string media_type_of(std::string_view bytes);
bool may_be_attached(std::string_view media_type);

// The type of a Content-Type header: lower case, without parameters.
std::string plain_media_type(std::string_view header);

}  // namespace pumpwright::server
