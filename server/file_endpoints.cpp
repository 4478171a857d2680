// Files: photos and papers of a job, its record, its tag, its drawings.
#include <algorithm>

#include <nlohmann/json.hpp>

#include "job/section.h"
#include "report/build_record.h"
#include "report/customer_letter.h"
#include "report/drawings.h"
#include "report/readings_csv.h"
#include "report/readings_qif.h"
#include "server/cause_view.h"
#include "server/endpoints.h"
#include "server/media_type.h"
#include "server/problem.h"
#include "server/tag_svg.h"

namespace pumpwright::server {
namespace {

// Nothing a person wrote may choose what a file is called beyond its plain letters.
std::string plain_file_name(const std::string& number, std::string_view suffix) {
  std::string name;
  for (const char c : number.substr(0, 64)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
    name += plain ? c : '-';
  }
  return name.append(suffix);
}

HttpResponse file_answer(std::string_view type, std::string bytes, const std::string& disposition) {
  HttpResponse response;
  response.set("Content-Type", std::string(type));
  response.set("Content-Disposition", disposition);
  response.body = std::move(bytes);
  return response;
}

Problem no_room(std::uint64_t room_bytes) {
  const auto mib = std::to_string(room_bytes / bytes_per_mib);
  return Problem(
      {.status = 413,
       .code = "too-large",
       .text =
           {.en = "The shop's room for photos and papers is used up (" + mib +
                  " MiB): this one was not stored. Whoever runs the server can give more with --photo-room.",
            .es = "El espacio del taller para fotos y papeles está agotado (" + mib +
                  " MiB): este no se guardó. Quien lleva el servidor puede dar más con --photo-room."},
       .field = {},
       .value = {},
       .valid = {},
       .retry_after_s = {}});
}

HttpResponse put_attachment(Parts& parts, const Call& call) {
  parts.shop.job(call.in_path("number"));  // throws when there is none
  const auto type = plain_media_type(call.request.header("content-type").value_or(""));
  if (media_type_of(call.request.body) != type)
    throw bad_request(
        {.en = "The file is not what its type says.", .es = "El archivo no es lo que dice su tipo."});
  const auto hash = parts.store.attachments().put_within({.media_type = type, .bytes = call.request.body},
                                                         parts.photo_room_bytes);
  // Not a disk that is full: trying again would only keep what comes after it waiting on the tablet.
  if (!hash) throw no_room(parts.photo_room_bytes);
  return json_answer(201, {{"hash", *hash}});
}

HttpResponse get_attachment(Parts& parts, const Call& call) {
  const auto& hash = call.in_path("hash");
  auto found = parts.store.attachments().get(hash);
  if (!found) throw not_found();
  const bool picture = found->media_type.starts_with("image/");
  auto response = file_answer(found->media_type, std::move(found->bytes), picture ? "inline" : "attachment");
  // Bytes from outside: whatever they are, they run nothing and load nothing.
  response.set("Content-Security-Policy", "default-src 'none'; sandbox");
  return response;
}

// A job with what its drawings and documents need. Points into itself: never copied.
struct Drawn {
  std::shared_ptr<const shop::JobPicture> picture;
  job::Section section;

  report::BuildRecordInput input(const Call& call) const {
    return {
        .header = picture->logged.file.header,
        .snapshot = picture->snapshot,
        .state = picture->state,
        .judgement = picture->judgement,
        .section = section,
        .record_hash = picture->head,
        .language = call.target.asked("language") == "es" ? job::Language::spanish : job::Language::english,
        .paper = report::paper_of(call.target.asked("paper").value_or(""))};
  }
};

Drawn drawn(const Parts& parts, const Call& call) {
  auto picture = parts.shop.job(call.in_path("number"));
  auto section = job::section_of(picture->snapshot.make_up);
  return {.picture = std::move(picture), .section = std::move(section)};
}

void want_one_of(const Call& call, std::string_view name, std::string_view one, std::string_view other) {
  const auto asked = call.target.asked(name);
  if (asked && *asked != one && *asked != other)
    throw bad_request(
        {.en = std::string(name) + " is " + std::string(one) + " or " + std::string(other) + ".",
         .es = std::string(name) + " es " + std::string(one) + " o " + std::string(other) + "."});
}

HttpResponse get_record_pdf(Parts& parts, const Call& call) {
  want_one_of(call, "language", "en", "es");
  want_one_of(call, "paper", "a4", "letter");
  const auto job = drawn(parts, call);
  return file_answer("application/pdf", report::build_record_pdf(job.input(call)),
                     "attachment; filename=\"" + plain_file_name(call.in_path("number"), ".pdf") + "\"");
}

HttpResponse get_readings_csv(Parts& parts, const Call& call) {
  want_one_of(call, "language", "en", "es");
  const auto job = drawn(parts, call);
  return file_answer(
      "text/csv; charset=utf-8", report::readings_csv(job.input(call)),
      "attachment; filename=\"" + plain_file_name(call.in_path("number"), ".readings.csv") + "\"");
}

HttpResponse get_readings_qif(Parts& parts, const Call& call) {
  want_one_of(call, "language", "en", "es");
  const auto job = drawn(parts, call);
  return file_answer(
      "application/xml", report::readings_qif(job.input(call)),
      "attachment; filename=\"" + plain_file_name(call.in_path("number"), ".readings.qif") + "\"");
}

// The letter for whoever owns the pump; there is none while its strip-down was not read.
HttpResponse get_letter(Parts& parts, const Call& call) {
  want_one_of(call, "language", "en", "es");
  want_one_of(call, "paper", "a4", "letter");
  const auto job = drawn(parts, call);
  const auto& picture = *job.picture;
  const auto strip_down = job::strip_down_of(picture.snapshot, picture.state);
  if (!strip_down) throw not_found();
  const auto cause = job::cause_of(shipped_causes(), *strip_down, picture.judgement);
  return file_answer(
      "application/pdf",
      report::customer_letter_pdf(
          {.record = job.input(call), .tables = shipped_causes(), .strip_down = *strip_down, .cause = cause}),
      "attachment; filename=\"" + plain_file_name(call.in_path("number"), ".letter.pdf") + "\"");
}

HttpResponse get_record_json(Parts& parts, const Call& call) {
  return file_answer(
      "application/json; charset=utf-8", parts.shop.record_json(call.in_path("number")),
      "attachment; filename=\"" + plain_file_name(call.in_path("number"), ".record.json") + "\"");
}

HttpResponse get_tag(Parts& parts, const Call& call) {
  const auto picture = parts.shop.job(call.in_path("number"));
  return file_answer("image/svg+xml", tag_svg(picture->logged.file.header, picture->head), "inline");
}

HttpResponse get_drawing(Parts& parts, const Call& call) {
  want_one_of(call, "language", "en", "es");
  const auto job = drawn(parts, call);
  auto bytes = report::drawing(job.input(call), call.in_path("name"), report::Picture::svg);
  if (!bytes) throw not_found();
  return file_answer("image/svg+xml", std::move(*bytes), "inline");
}

}  // namespace

std::vector<Route> file_routes(Parts& parts) {
  const auto row = [&parts](auto function) {
    return [&parts, function](const Call& call) { return function(parts, call); };
  };
  const auto get = [](std::string_view pattern, Runs runs, Handler handler) {
    return Route{.method = "GET",
                 .pattern = pattern,
                 .allowed = allow::signed_in,
                 .runs = runs,
                 .handler = std::move(handler)};
  };
  std::vector<Route> routes;
  routes.push_back({.method = "POST",
                    .pattern = "/api/jobs/{number}/attachments",
                    .allowed = allow::bench_hands,
                    .content = Content::attachment,
                    .body_bytes_max = attachment_body_bytes_max,
                    .runs = Runs::in_worker,
                    .handler = row(put_attachment)});
  routes.push_back(get("/api/attachments/{hash}", Runs::in_worker, row(get_attachment)));
  routes.push_back(get("/api/jobs/{number}/readings.csv", Runs::in_slow_worker, row(get_readings_csv)));
  routes.push_back(get("/api/jobs/{number}/readings.qif", Runs::in_slow_worker, row(get_readings_qif)));
  routes.push_back(get("/api/jobs/{number}/letter.pdf", Runs::in_slow_worker, row(get_letter)));
  routes.push_back(get("/api/jobs/{number}/record.pdf", Runs::in_slow_worker, row(get_record_pdf)));
  routes.push_back(get("/api/jobs/{number}/record.json", Runs::in_slow_worker, row(get_record_json)));
  routes.push_back(get("/api/jobs/{number}/tag.svg", Runs::in_worker, row(get_tag)));
  routes.push_back(get("/api/jobs/{number}/drawings/{name}.svg", Runs::in_slow_worker, row(get_drawing)));
  return routes;
}

}  // namespace pumpwright::server
