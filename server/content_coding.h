// Answers made smaller on their way. A view of one job is five times smaller compressed, which on a shop's
// Wi-Fi is the difference between waiting and not; the embedded page is compressed when it is built instead
// (server/static_page.h).
#pragma once

#include <string>
#include <string_view>

#include "server/http_request.h"
#include "server/http_response.h"

namespace pumpwright::server {

// What an Accept-Encoding header gives `coding` (RFC 9110, 12.5.3): its weight, that of "*" when it is not
// named, 0 when neither is there. Lower-case `coding`.
double coding_weight(std::string_view header, std::string_view coding);

// The same question where every weight above 0 will do.
bool accepts_coding(std::string_view header, std::string_view coding);

// The bytes in the gzip format (RFC 1952). Throws std::bad_alloc.
std::string gzip(std::string_view bytes);

inline constexpr std::size_t compressed_from_bytes = 2048;

// Compresses the body of a JSON or SVG answer that is worth it when the request takes gzip, and says in Vary
// that it depends on that. Leaves alone: event streams, photos and PDF (compressed already), answers that
// carry a coding already.
//
// Never call it for an answer that holds a secret. Its compressed length tells whether a text that somebody
// else chose and that is in the same answer (a name, a search) resembles the secret, and the length can be
// seen from outside even under TLS (the attack known as BREACH). The router's rows say which those are.
void compress_answer(HttpResponse& response, const HttpRequest& request);

}  // namespace pumpwright::server
