#include "server/static_page.h"

#include <algorithm>
#include <string>

#include "server/content_coding.h"
#include "server/http_text.h"
#include "server/problem.h"

namespace pumpwright::server {
namespace {

struct Form {
  std::string_view bytes;
  std::string_view coding;  // empty: plain
};

Form form_for(const PageFile& file, std::string_view accept_encoding) {
  if (!file.brotli.empty() && accepts_coding(accept_encoding, "br"))
    return {.bytes = file.brotli, .coding = "br"};
  if (!file.gzip.empty() && accepts_coding(accept_encoding, "gzip"))
    return {.bytes = file.gzip, .coding = "gzip"};
  return {.bytes = file.plain, .coding = {}};
}

std::string entity_tag(const PageFile& file, const Form& form) {
  std::string tag = "\"" + std::string(file.digest.substr(0, 32));
  if (!form.coding.empty()) tag.append("-").append(form.coding);
  return tag + "\"";
}

bool tag_matches(std::string_view header, std::string_view tag) {
  while (!header.empty()) {
    const auto comma = header.find(',');
    auto one = without_spaces_around(header.substr(0, comma));
    if (one.starts_with("W/")) one.remove_prefix(2);
    if (one == "*" || one == tag) return true;
    header = comma == std::string_view::npos ? std::string_view{} : header.substr(comma + 1);
  }
  return false;
}

HttpResponse page_not_built() {
  HttpResponse response;
  response.status = 404;
  response.set("Content-Type", "text/html; charset=utf-8");
  response.body =
      "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Pumpwright</title>"
      "<h1>The page was not built</h1><p>This program was built without its page; the data are under "
      "<code>/api/</code>. "
      "Build the page in <code>web/</code>, then the program.</p>"
      "<p lang=\"es\">Este programa se construyó sin su página; los datos están en "
      "<code>/api/</code>.</p></html>";
  return response;
}

}  // namespace

const PageFile* StaticPage::find(std::string_view name) const {
  const auto at =
      std::lower_bound(files_.begin(), files_.end(), name,
                       [](const PageFile& file, std::string_view wanted) { return file.name < wanted; });
  return at != files_.end() && at->name == name ? &*at : nullptr;
}

HttpResponse StaticPage::answer(const HttpRequest& request, const Target& target) const {
  const auto* file = target.segments.empty() ? find("index.html") : find(target.path().substr(1));
  const bool a_place_of_the_page =
      target.segments.empty() || target.segments.back().find('.') == std::string::npos;
  if (file == nullptr && a_place_of_the_page) {
    file = find("index.html");
    if (file == nullptr) return page_not_built();
  }
  if (file == nullptr) return error_answer(not_found().what_it_is());

  const auto form = form_for(*file, request.header("accept-encoding").value_or(""));
  const auto tag = entity_tag(*file, form);
  HttpResponse response;
  response.set("ETag", tag);
  response.set("Vary", "Accept-Encoding");
  response.set("Cache-Control",
               file->name.starts_with("assets/") ? "public, max-age=31536000, immutable" : "no-cache");
  if (tag_matches(request.header("if-none-match").value_or(""), tag)) {
    response.status = 304;
    return response;
  }
  response.set("Content-Type", std::string(file->content_type));
  if (!form.coding.empty()) response.set("Content-Encoding", std::string(form.coding));
  response.embedded = form.bytes;
  return response;
}

}  // namespace pumpwright::server
