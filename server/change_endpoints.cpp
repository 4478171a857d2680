// Event streams: what happens to a job, and where in the shop something happened.
#include <charconv>

#include "server/endpoints.h"
#include "server/problem.h"

namespace pumpwright::server {
namespace {

HttpResponse stream_answer(std::shared_ptr<EventChannel> channel) {
  HttpResponse response;
  response.set("Content-Type", "text/event-stream; charset=utf-8");
  response.set("X-Accel-Buffering", "no");
  response.stream = std::move(channel);
  return response;
}

ChangeHub::Listening listening_of(Parts& parts, const Call& call) {
  return {.still_allowed =
              [&parts, session = call.session->id, person = call.person->id] {
                const auto state = parts.shop.state();
                const auto found = state->people.find(person);
                return parts.sessions.lives(session) && found != state->people.end() && found->second.active;
              },
          .session = call.session->id};
}

// Last-Event-ID of a browser that comes back, or ?after= of a page that has just read the job.
std::string last_id(const Call& call) {
  if (const auto header = call.request.header("last-event-id")) return std::string(*header);
  return call.target.asked("after").value_or("");
}

HttpResponse job_changes(Parts& parts, const Call& call) {
  const auto picture = parts.shop.job(call.in_path("number"));  // throws when there is none
  const auto text = last_id(call);
  std::optional<std::uint64_t> after;
  if (!text.empty()) {
    std::uint64_t seq = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seq);
    if (error != std::errc() || end != text.data() + text.size())
      throw bad_request({.en = "The id of an event is its number in the job.",
                         .es = "El identificador de un evento es su número en el trabajo."});
    after = seq;
  }
  return stream_answer(parts.changes.listen_to_job("job/" + picture->logged.file.header.number, after,
                                                   listening_of(parts, call)));
}

HttpResponse shop_changes(Parts& parts, const Call& call) {
  return stream_answer(parts.changes.listen_to_shop(last_id(call), listening_of(parts, call)));
}

}  // namespace

std::vector<Route> change_routes(Parts& parts) {
  const auto row = [&parts](auto function) {
    return [&parts, function](const Call& call) { return function(parts, call); };
  };
  std::vector<Route> routes;
  routes.push_back({.method = "GET",
                    .pattern = "/api/jobs/{number}/changes",
                    .allowed = allow::signed_in,
                    .handler = row(job_changes)});
  routes.push_back({.method = "GET",
                    .pattern = "/api/changes",
                    .allowed = allow::signed_in,
                    .handler = row(shop_changes)});
  return routes;
}

}  // namespace pumpwright::server
