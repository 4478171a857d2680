// What came back and why: returns over the shop's own builds, the list behind them, and records older than
// this program.
#include <algorithm>

#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "server/endpoints.h"
#include "server/json_body.h"
#include "server/problem.h"
#include "server/returns_view.h"
#include "shop/old_table.h"

namespace pumpwright::server {
namespace {

constexpr std::size_t name_bytes_max = 256;
constexpr std::size_t old_body_bytes_max = std::size_t{16} * 1024 * 1024;
constexpr std::size_t first_rows = 5;  // of a table, shown before it is taken in

std::string asked_text(const Call& call, std::string_view name) {
  return call.target.asked(name).value_or("").substr(0, name_bytes_max);
}

std::optional<shop::BuildTrait> trait_asked(const Call& call) {
  const auto by = asked_text(call, "by");
  if (by.empty()) return std::nullopt;
  if (by == "pump") return shop::BuildTrait::pump;
  if (by == "customer") return shop::BuildTrait::customer;
  if (by == "seal") return shop::BuildTrait::seal;
  throw BadInput({.field = "by", .place = "", .value = by, .expected = "pump, customer or seal"});
}

// "impeller-sweep,end-float"
std::vector<std::string_view> checks_asked(const Call& call) {
  const auto text = asked_text(call, "reading");
  std::vector<std::string_view> checks;
  for (const auto check : shop::checks_of_lives)
    if (("," + text + ",").find("," + std::string(check) + ",") != std::string::npos) checks.push_back(check);
  const auto named = text.empty() ? 0 : 1 + std::count(text.begin(), text.end(), ',');
  if (static_cast<std::size_t>(named) != checks.size())
    throw BadInput(
        {.field = "reading",
         .place = "",
         .value = text,
         .expected = "checks whose readings life data keeps, each once, such as impeller-sweep,end-float"});
  return checks;
}

HttpResponse get_returns(Parts& parts, const Call& call) {
  shop::ReturnsAsked asked{.pump = asked_text(call, "pump"),
                           .customer = asked_text(call, "customer"),
                           .seal = asked_text(call, "seal"),
                           .by = trait_asked(call),
                           .checks = checks_asked(call)};
  if (const auto day = asked_text(call, "changed"); !day.empty()) {
    if (asked.by)
      throw BadInput({.field = "by",
                      .place = "",
                      .value = asked_text(call, "by"),
                      .expected = "nothing beside a day of change: the groups are before and after"});
    asked.changed_at_s = job::parse_start_of_day(day, "changed").seconds;
  }
  const auto lives = parts.shop.lives();
  return json_answer(200, returns_view(lives.lives, asked));
}

HttpResponse get_lives_csv(Parts& parts, const Call& /*call*/) {
  HttpResponse response;
  response.set("Content-Type", "text/csv; charset=utf-8");
  response.set("Content-Disposition", "attachment; filename=\"lives.csv\"");
  response.body = shop::lives_csv(parts.shop.lives().lives);
  return response;
}

struct OldFile {
  std::string csv, name;
  std::optional<shop::OldColumns> columns;
};

OldFile old_file_in(const job::JsonReader& body) {
  OldFile file{
      body.required("csv").text(shop::old_csv_bytes_max), body.required("file").text(name_bytes_max), {}};
  if (const auto columns = body.optional("columns")) file.columns = shop::decode_old_columns(*columns);
  return file;
}

nlohmann::json wrong_json(const shop::OldTable& table) {
  auto list = nlohmann::json::array();
  for (const auto& what : table.wrong)
    list.push_back(
        {{"place", what.place}, {"field", what.field}, {"value", what.value}, {"valid", what.expected}});
  return list;
}

nlohmann::json as_understood(const shop::OldJob& job) {
  auto json = nlohmann::json::parse(shop::encode_old_job(job));
  json["line"] = job.line;
  json.erase("from");
  return json;
}

nlohmann::json table_json(const shop::OldTable& table) {
  auto rows = nlohmann::json::array();
  for (std::size_t i = 0; i < std::min(first_rows, table.jobs.size()); ++i)
    rows.push_back(as_understood(table.jobs[i]));
  return {{"fit", table.jobs.size()},       {"wrong_count", table.wrong_count},
          {"wrong", wrong_json(table)},     {"first", std::move(rows)},
          {"left_alone", table.left_alone}, {"words_unknown", table.words_unknown}};
}

shop::OldTable read_old(const Parts& parts, const OldFile& file) {
  return shop::read_old_csv(file.csv, file.name, *file.columns, job::UtcTime{parts.now_ms() / 1000});
}

// What a file holds, and with columns named what would come of it; nothing is kept.
HttpResponse look_at_old_jobs(Parts& parts, const Call& call) {
  const auto body = json_body(call, old_body_bytes_max);
  body.allow_only({"file", "csv", "columns"});
  const auto file = old_file_in(body);
  nlohmann::json answer{{"header", shop::old_csv_header(file.csv)}, {"table", nullptr}};
  if (file.columns) answer["table"] = table_json(read_old(parts, file));
  return json_answer(200, answer);
}

HttpResponse take_old_jobs(Parts& parts, const Call& call) {
  const auto body = json_body(call, old_body_bytes_max);
  body.allow_only({"key", "device", "device_seq", "file", "csv", "columns", "name"});
  const auto hand = hand_of(call, body);
  const auto file = old_file_in(body);
  (void)body.required("columns");
  if (const auto name = body.optional("name")) {
    auto event = envelope_in(body);
    event.type = "old-columns-set";
    event.payload =
        nlohmann::json{{"name", name->text(80)}, {"columns", body.required("columns").raw()}}.dump();
    all_accepted(parts.shop.hand_in_to_shop(hand, std::span(&event, 1)));
  }
  const auto table = read_old(parts, file);
  const auto done = parts.shop.take_old_jobs(hand, table.jobs);
  return json_answer(200, {{"taken", done.taken}, {"known", done.known}, {"wrong_count", table.wrong_count}});
}

}  // namespace

std::vector<Route> history_routes(Parts& parts) {
  const auto row = [&parts](auto function) {
    return [&parts, function](const Call& call) { return function(parts, call); };
  };
  const auto get = [](std::string_view pattern, Handler handler) {
    return Route{.method = "GET",
                 .pattern = pattern,
                 .allowed = allow::signed_in,
                 .runs = Runs::in_slow_worker,
                 .handler = std::move(handler)};
  };
  const auto post = [](std::string_view pattern, Handler handler) {
    return Route{.method = "POST",
                 .pattern = pattern,
                 .allowed = allow::lead_hand,
                 .content = Content::json,
                 .body_bytes_max = old_body_bytes_max,
                 .runs = Runs::in_slow_worker,
                 .handler = std::move(handler)};
  };
  std::vector<Route> routes;
  routes.push_back(get("/api/returns", row(get_returns)));
  routes.push_back(get("/api/lives.csv", row(get_lives_csv)));
  routes.push_back(post("/api/shop/old-jobs/look", row(look_at_old_jobs)));
  routes.push_back(post("/api/shop/old-jobs", row(take_old_jobs)));
  return routes;
}

}  // namespace pumpwright::server
