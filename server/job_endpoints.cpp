// Jobs: the lists, one job with its verdicts, and what happens to it.
#include <algorithm>
#include <charconv>

#include <nlohmann/json.hpp>

#include "job/bench_sheet.h"
#include "server/cause_view.h"
#include "server/endpoints.h"
#include "server/job_view.h"
#include "server/json_body.h"
#include "server/make_up_form.h"
#include "server/past_view.h"
#include "server/problem.h"
#include "server/seal_map_view.h"
#include "server/seal_view.h"
#include "server/spectrum_view.h"
#include "server/true_view.h"
#include "store/utc_text.h"

namespace pumpwright::server {
namespace {

constexpr std::size_t search_limit_max = 100;
constexpr std::size_t earlier_max = 20;

// A whole number of the query; `otherwise` when it is not there. Problem 400 for anything else.
std::size_t number_asked(const Call& call, std::string_view name, std::size_t otherwise, std::size_t most) {
  const auto text = call.target.asked(name);
  if (!text) return otherwise;
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(text->data(), text->data() + text->size(), number);
  if (error != std::errc() || end != text->data() + text->size() || number < 1 || number > most)
    throw bad_request(
        {.en = "\"" + std::string(name) + "\" is a whole number from 1 to " + std::to_string(most) + ".",
         .es = "«" + std::string(name) + "» es un número entero de 1 a " + std::to_string(most) + "."});
  return number;
}

HttpResponse list_jobs(Parts& parts, const Call& /*call*/) {
  auto jobs = nlohmann::json::array();
  for (const auto& card : parts.shop.open_jobs())
    jobs.push_back(card_json(card, *parts.shop.job(card.number)));
  return json_answer(200, {{"jobs", jobs}, {"at", store::utc_text(parts.now_ms())}});
}

nlohmann::json plain_cards(const std::vector<shop::JobCard>& cards) {
  auto jobs = nlohmann::json::array();
  for (const auto& card : cards)
    jobs.push_back(card_json(card));
  return jobs;
}

HttpResponse search_jobs(Parts& parts, const Call& call) {
  const auto text = call.target.asked("q").value_or("");
  const auto limit = number_asked(call, "limit", 20, search_limit_max);
  return json_answer(200, {{"jobs", plain_cards(parts.shop.search(text.substr(0, 200), limit))}});
}

HttpResponse earlier_jobs(Parts& parts, const Call& call) {
  auto jobs = nlohmann::json::array();
  for (const auto& card :
       parts.shop.earlier(call.target.asked("pump").value_or(""), call.target.asked("serial").value_or(""))) {
    if (jobs.size() >= earlier_max) break;
    if (card.old) continue;  // nothing to fill a make-up from
    const auto picture = parts.shop.job(card.number);
    jobs.push_back({{"number", card.number},
                    {"make_up", nlohmann::json::parse(picture->logged.make_up_json)},
                    {"opened", card.opened}});
  }
  return json_answer(200, {{"jobs", jobs}});
}

HttpResponse get_job(Parts& parts, const Call& call) {
  const auto picture = parts.shop.job(call.in_path("number"));
  auto log = parts.store.events().read("job/" + call.in_path("number"));
  // The picture and the log are read one after the other: what came between belongs to the next picture.
  std::erase_if(log, [&](const auto& event) { return event.seq > picture->seq; });
  return json_answer(200, job_view(*picture, *parts.shop.state(), log, parts.now_ms()));
}

// Conditions to try in place of the job's own, as hands write them; BadInput names the field of the query.
job::SealQuestion seal_question(const Call& call, const job::Snapshot& snapshot) {
  const auto asked = [&](std::string_view name) { return call.target.asked(name).value_or(""); };
  return job::ask_of_seal({.temperature = asked("temperature"),
                           .suction = asked("suction"),
                           .head = asked("head"),
                           .speed = asked("speed"),
                           .altitude = asked("altitude"),
                           .length = asked("length")},
                          snapshot, "");
}

HttpResponse get_seal(Parts& parts, const Call& call) {
  const auto picture = parts.shop.job(call.in_path("number"));
  return json_answer(200, seal_view(seal_question(call, picture->snapshot), picture->state));
}

HttpResponse get_seal_map(Parts& parts, const Call& call) {
  const auto picture = parts.shop.job(call.in_path("number"));
  return json_answer(200, seal_map_view(seal_question(call, picture->snapshot), picture->state));
}

HttpResponse get_true_running(Parts& parts, const Call& call) {
  const auto picture = parts.shop.job(call.in_path("number"));
  return json_answer(200, true_view(picture->snapshot, picture->state, picture->judgement));
}

HttpResponse get_past(Parts& parts, const Call& call) {
  const auto& number = call.in_path("number");
  return json_answer(200, past_view(*parts.shop.job(number), parts.shop.past_of(number)));
}

HttpResponse get_cause(Parts& parts, const Call& call) {
  const auto picture = parts.shop.job(call.in_path("number"));
  return json_answer(200, cause_view(picture->snapshot, picture->state, picture->judgement));
}

HttpResponse try_cause(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"sheet"});
  const auto picture = parts.shop.job(call.in_path("number"));
  const auto sheet = job::decode_strip_down(
      job::whole_sheet(job::SheetOf::strip_down, "", job::decode_sheet_reading(body.required("sheet"))));
  return json_answer(200, tried_cause_view(sheet, picture->judgement));
}

HttpResponse get_spectrum(Parts& parts, const Call& call) {
  const auto picture = parts.shop.job(call.in_path("number"));
  const auto asked = [&](std::string_view name) {
    return call.target.asked(name).value_or("").substr(0, 200);
  };
  const auto recording = parts.store.attachments().get(asked("recording"));
  if (!recording) throw not_found();
  return json_answer(200, spectrum_view(picture->snapshot,
                                        {.place = asked("place"),
                                         .unit = asked("unit"),
                                         .full_scale = asked("full_scale"),
                                         .channel = asked("channel"),
                                         .window = asked("window")},
                                        recording->bytes));
}

HttpResponse open_job(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"key", "device", "device_seq", "job", "make_up", "bench"});
  nlohmann::json payload{{"job", body.required("job").raw()}, {"make_up", body.required("make_up").raw()}};
  if (const auto bench = body.optional("bench")) payload["bench"] = bench->raw();
  const auto number =
      parts.shop.open_job(hand_of(call, body), {.envelope = envelope_in(body), .payload = payload.dump()});
  return json_answer(201, {{"number", number}});
}

HttpResponse hand_in(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"device", "events"});
  std::vector<shop::HandedIn> events;
  for (const auto& event : body.required("events").items(events_per_request_max))
    events.push_back(event_in(event));
  return json_answer(200,
                     receipt_json(parts.shop.hand_in(hand_of(call, body), call.in_path("number"), events)));
}

HttpResponse try_reading(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"payload"});
  const auto& number = call.in_path("number");
  const auto finding = parts.shop.try_reading({.person = *call.person, .device = "try"}, number,
                                              body.required("payload").text(store::event_payload_bytes_max));
  return json_answer(200, finding_json(*parts.shop.job(number), finding));
}

HttpResponse preview_plan(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"make_up"});
  return json_answer(200, plan_preview(parts.shop.preview_plan(body.required("make_up").raw().dump())));
}

HttpResponse sign(Parts& parts, const Call& call) {
  const auto body = json_body(call);
  body.allow_only({"key", "device", "device_seq", "password", "statement"});
  const auto password = body.required("password").text(shop::password_bytes_max);
  const auto statement = body.required("statement").text(2000);
  const auto hand = hand_of(call, body);
  const auto envelope = envelope_in(body);
  const Attempt attempt{.person = call.person->id,
                        .device = enrolled_device(parts, call.request).value_or(""),
                        .address = call.request.peer};
  if (const auto wait_s = parts.throttle.begin(attempt)) throw too_many(*wait_s);
  const auto forgive = [&] { parts.throttle.succeeded(attempt); };
  try {
    const auto receipt = parts.shop.release(hand, call.in_path("number"), envelope, password, statement);
    forgive();
    all_accepted(receipt);
    return json_answer(200, {{"seq", receipt.seq}, {"head", receipt.head}});
  } catch (const shop::Refused& refused) {
    // Open points and the like say nothing about the password: only a wrong one counts as a guess.
    if (refused.refusal() != shop::Refusal::not_allowed) forgive();
    throw;
  }
}

}  // namespace

std::vector<Route> job_routes(Parts& parts) {
  const auto row = [&parts](auto function) {
    return [&parts, function](const Call& call) { return function(parts, call); };
  };
  const auto get = [](std::string_view pattern, Handler handler) {
    return Route{
        .method = "GET", .pattern = pattern, .allowed = allow::signed_in, .handler = std::move(handler)};
  };
  const auto post = [](std::string_view pattern, Allowed allowed, Runs runs, Handler handler) {
    return Route{.method = "POST",
                 .pattern = pattern,
                 .allowed = allowed,
                 .content = Content::json,
                 .body_bytes_max = json_body_bytes_max,
                 .runs = runs,
                 .handler = std::move(handler)};
  };
  std::vector<Route> routes;
  routes.push_back(get("/api/jobs", row(list_jobs)));
  routes.push_back(get("/api/search", row(search_jobs)));
  routes.push_back(get("/api/earlier", row(earlier_jobs)));
  routes.push_back(
      get("/api/make-up-form", [](const Call& /*call*/) { return json_answer(200, make_up_form()); }));
  routes.push_back(get("/api/jobs/{number}", row(get_job)));
  routes.push_back(get("/api/jobs/{number}/seal", row(get_seal)));
  routes.push_back(get("/api/jobs/{number}/seal-map", row(get_seal_map)));
  routes.push_back(get("/api/jobs/{number}/true-running", row(get_true_running)));
  routes.back().runs = Runs::in_slow_worker;
  routes.push_back(get("/api/jobs/{number}/past", row(get_past)));
  routes.back().runs = Runs::in_slow_worker;
  routes.push_back(get("/api/jobs/{number}/cause", row(get_cause)));
  routes.back().runs = Runs::in_slow_worker;
  routes.push_back(get("/api/jobs/{number}/spectrum", row(get_spectrum)));
  routes.back().runs = Runs::in_slow_worker;
  routes.push_back(post("/api/jobs", allow::job_openers, Runs::in_worker, row(open_job)));
  routes.push_back(post("/api/plan-preview", allow::job_openers, Runs::in_worker, row(preview_plan)));
  routes.push_back(post("/api/jobs/{number}/events", allow::bench_hands, Runs::in_worker, row(hand_in)));
  routes.push_back(post("/api/jobs/{number}/try", allow::bench_hands, Runs::in_worker, row(try_reading)));
  routes.push_back(
      post("/api/jobs/{number}/cause", allow::bench_hands, Runs::in_slow_worker, row(try_cause)));
  routes.push_back(post("/api/jobs/{number}/sign", allow::lead_hand, Runs::in_slow_worker, row(sign)));
  return routes;
}

}  // namespace pumpwright::server
