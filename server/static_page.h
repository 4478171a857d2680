// The page as it is built into the program: files by name, each plain and compressed, so that a bench needs
// no installed tree and the server never opens a file by a name that came over the network.
#pragma once

#include <span>
#include <string_view>

#include "server/http_request.h"
#include "server/http_response.h"
#include "server/target.h"

namespace pumpwright::server {

struct PageFile {
  std::string_view name;  // "index.html", "assets/index-1a2b3c4d.js"
  std::string_view content_type;
  std::string_view digest;               // of the plain bytes; the entity tag is made from it
  std::string_view plain, gzip, brotli;  // a form that is not there is empty
};

// What the build found in web/dist, by name; empty when the page was not built.
std::span<const PageFile> embedded_page();

class StaticPage {
 public:
  // `files` in the order of their names; they live as long as this.
  explicit StaticPage(std::span<const PageFile> files) : files_(files) {}

  // Answers a GET: the file of that name, index.html for an unknown path without a dot in its last part (the
  // page knows its own places), else 404. Understands Accept-Encoding and If-None-Match. Files under assets/
  // carry a hash in their name and may be kept for good.
  HttpResponse answer(const HttpRequest& request, const Target& target) const;

 private:
  const PageFile* find(std::string_view name) const;

  std::span<const PageFile> files_;
};

}  // namespace pumpwright::server
