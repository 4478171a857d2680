#include "job/job_file.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "job/event_json.h"
#include "job/fastener_figures.h"
#include "job/instrument_json.h"
#include "job/plan_json.h"
#include "job/seal_figures.h"
#include "job/snapshot_json.h"

namespace pumpwright::job {
namespace {

std::string optional_text(const JsonReader& at, std::string_view key) {
  const auto value = at.optional(key);
  return value ? value->text(256) : std::string();
}

LimitOverride decode_override(const JsonReader& at) {
  at.allow_only({"check", "rank", "lower", "upper", "rule", "ratio", "source"});
  LimitOverride o;
  o.place = at.pointer();
  o.check = at.required("check").text(128);
  o.limit.rank = *rank_from(at.required("rank").word({"job", "customer", "family"}));
  o.limit.id = fmt::format("{}/{}", o.check, word_of(o.limit.rank));
  o.lower_text = optional_text(at, "lower");
  o.upper_text = optional_text(at, "upper");
  if (o.lower_text.empty() && o.upper_text.empty()) at.refuse("a limit with \"lower\" or \"upper\"");
  if (const auto rule = at.optional("rule"))
    o.limit.decision.rule = rule->word({"guarded", "simple"}) == "simple" ? Rule::simple : Rule::guarded;
  if (const auto ratio = at.optional("ratio")) {
    o.limit.decision.ratio = ratio->number();
    if (o.limit.decision.ratio <= 0 || o.limit.decision.ratio > 1000)
      ratio->refuse("a number above 0, at most 1000");
  }
  o.limit.source = decode_source(at.required("source"));
  return o;
}

void decode_shop(const JsonReader& at, JobFile& job) {
  at.allow_only({"instruments", "adopted"});
  job.instruments = decode_instruments(at.required("instruments"));
  if (const auto adopted = at.optional("adopted")) job.adoptions = decode_adoptions(*adopted);
}

void want_format(const JsonReader& root) {
  const JsonReader format = root.required("format");
  if (format.text(64) != "pumpwright-job") format.refuse("\"pumpwright-job\"");
  root.required("version").integer(job_file_version, job_file_version);
}

std::optional<FastenerFigures> fastener_figures(const MakeUp& make_up, const Catalog& catalog) {
  if (!make_up.fastener) return std::nullopt;
  const Fastener& f = *make_up.fastener;
  return find_fastener({f.thread, f.grade, f.condition}, catalog, "/make_up/impeller/fastener");
}

std::map<std::string, Expansion> expansions_of(const Catalog& catalog) {
  std::map<std::string, Expansion> out;
  const Table* materials = catalog.table("materials");
  if (materials == nullptr) return out;
  for (const auto& row : materials->rows)
    if (const auto alpha = row.expansion("expansion")) out.emplace(row.id(), *alpha);
  return out;
}

}  // namespace

std::string_view word_of(CameFor came_for) {
  if (came_for == CameFor::not_said) return "";
  return came_for == CameFor::fault ? "fault" : "other";
}

CameFor came_for_from(std::string_view word) {
  if (word == "fault") return CameFor::fault;
  return word == "other" ? CameFor::other : CameFor::not_said;
}

JobHeader decode_header(const JsonReader& at) {
  at.allow_only({"number", "customer", "pump", "serial", "reason", "came_for", "opened", "invented"});
  JobHeader h;
  h.number = at.required("number").text(64);
  if (h.number.empty()) at.required("number").refuse("a job number");
  h.customer = at.required("customer").text(256);
  h.pump = at.required("pump").text(256);
  h.serial = at.required("serial").text(128);
  h.reason = at.required("reason").text(1024);
  if (const auto came_for = at.optional("came_for"))
    h.came_for = came_for_from(came_for->word({"fault", "other"}));
  const JsonReader opened = at.required("opened");
  try {
    h.opened = parse_utc_time(opened.text(64), "opened");
  } catch (const BadInput& e) {
    throw e.at(opened.pointer());
  }
  if (const auto invented = at.optional("invented")) h.invented = invented->boolean();
  return h;
}

JobFile decode_job_file(std::string_view bytes) {
  const JsonReader root = JsonReader::parse(bytes);
  want_format(root);
  root.allow_only({"format", "version", "job", "make_up", "shop", "limits", "events", "snapshot"});
  JobFile job;
  job.header = decode_header(root.required("job"));
  job.make_up = decode_make_up(root.required("make_up"));
  decode_shop(root.required("shop"), job);
  if (const auto limits = root.optional("limits"))
    for (const auto& at : limits->items(1000))
      job.overrides.push_back(decode_override(at));
  for (const auto& at : root.required("events").items())
    job.events.push_back(decode_event(at, job.instruments));
  if (const auto snapshot = root.optional("snapshot")) job.snapshot = decode_snapshot(*snapshot);
  return job;
}

Snapshot derive_snapshot(const JobFile& job, const Catalog& catalog, std::span<const NamedBytes> step_files,
                         const std::string& program) {
  Snapshot s;
  s.make_up = complete_from_catalog(job.make_up, catalog);
  s.plan = generate_plan(s.make_up, load_step_texts(step_files), catalog, job.overrides);
  s.instruments = job.instruments;
  s.adoptions = job.adoptions;
  s.expansions = expansions_of(catalog);
  s.fastener = fastener_figures(s.make_up, catalog);
  s.seal = find_seal_figures(s.make_up, catalog);
  s.catalog_digest = catalog.digest();
  s.program = program;
  return s;
}

Snapshot snapshot_of(const JobFile& job, const Catalog& catalog, std::span<const NamedBytes> step_files,
                     const std::string& program) {
  if (!job.snapshot) return derive_snapshot(job, catalog, step_files, program);
  Snapshot s = *job.snapshot;
  s.instruments.insert(job.instruments.begin(), job.instruments.end());
  s.adoptions.insert(job.adoptions.begin(), job.adoptions.end());
  return s;
}

std::string freeze(std::string_view bytes, const Snapshot& snapshot) {
  const JobFile job = decode_job_file(bytes);
  if (job.snapshot)
    throw BadInput({.field = "snapshot",
                    .place = "/snapshot",
                    .value = "a frozen plan",
                    .expected = "a job file whose plan is not frozen yet"});
  nlohmann::ordered_json document = nlohmann::ordered_json::parse(bytes);
  document["snapshot"] = nlohmann::ordered_json::parse(encode_snapshot(snapshot).dump());
  return document.dump(1) + "\n";
}

}  // namespace pumpwright::job
