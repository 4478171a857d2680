// Any bytes as a request: a target, then a line end, then a body. The body is read as events for a job that
// is under way, and what reads as an event is offered to the job.
#include <cstdint>
#include <fstream>
#include <iterator>
#include <string_view>

#include <nlohmann/json.hpp>

#include "catalog/embedded.h"
#include "engine/quantity/bad_input.h"
#include "job/job_log.h"
#include "job/snapshot_json.h"
#include "server/json_body.h"
#include "server/problem.h"

namespace {

using namespace pumpwright;
using nlohmann::json;

// A demonstration job that was opened and planned.
job::JobLog begun_job() {
  std::ifstream file(PUMPWRIGHT_SOURCE_DIR "/demo/greenhouse-circulator.json");
  const json document = json::parse(file);
  const job::JobFile decoded = job::decode_job_file(document.dump());
  const auto snapshot = job::derive_snapshot(decoded, Catalog::load(embedded_catalog()),
                                             files_under(embedded_catalog(), "steps/"), "fuzz");
  job::JobLog log;
  const auto apply = [&](std::uint64_t seq, const char* type, const json& payload) {
    log.apply({seq, type, "J.M.", "2026-11-18T08:00:00.000Z", payload.dump()});
  };
  apply(1, "opened", document["job"]);
  apply(2, "make-up-set", {{"make_up", document["make_up"]}});
  apply(3, "plan-made", {{"snapshot", job::encode_snapshot(snapshot)}});
  return log;
}

void offer(const job::JsonReader& body) {
  static const job::JobLog begun = begun_job();
  for (const auto& item : body.required("events").items(200)) {
    const shop::HandedIn event = server::event_in(item);
    job::JobLog log = begun;
    try {
      log.apply({4, event.type, "J.M.", "2026-11-18T09:00:00.000Z", event.payload});
      job::judge(log.snapshot(), log.state());
    } catch (const BadInput&) {  // refused alone; the others go on
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);  // NOLINT: bytes as text
  const std::size_t line = bytes.find('\n');
  server::HttpRequest request;
  request.method = "POST";
  request.target = std::string(bytes.substr(0, line));
  if (line != std::string_view::npos) request.body = std::string(bytes.substr(line + 1));
  const auto target = server::parse_target(request.target);
  if (!target) return 0;
  server::Call call{.request = request, .target = *target, .path = {}};
  try {
    offer(server::json_body(call));
  } catch (const BadInput&) {         // what a device gets wrong
  } catch (const server::Problem&) {  // the same, as an answer
  }
  return 0;
}
