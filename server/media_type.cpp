#include "server/media_type.h"

#include "server/http_text.h"

namespace pumpwright::server {

std::string media_type_of(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xD8\xFF")) return "image/jpeg";
  if (bytes.starts_with("\x89PNG\r\n\x1A\n")) return "image/png";
  if (bytes.size() >= 12 && bytes.starts_with("RIFF") && bytes.substr(8, 4) == "WEBP") return "image/webp";
  if (bytes.size() >= 12 && bytes.starts_with("RIFF") && bytes.substr(8, 4) == "WAVE") return "audio/wav";
  if (bytes.starts_with("%PDF-")) return "application/pdf";
  return {};
}

bool may_be_attached(std::string_view media_type) {
  return media_type == "image/jpeg" || media_type == "image/png" || media_type == "image/webp" ||
         media_type == "application/pdf" || media_type == "audio/wav";
}

std::string plain_media_type(std::string_view header) {
  return lower_case(without_spaces_around(header.substr(0, header.find(';'))));
}

}  // namespace pumpwright::server
