#include "cli/cause_report.h"
#include "cli/json_values.h"

namespace pumpwright {
namespace {

using reliability::Seen;

const char* word_for(Seen seen) {
  return seen == Seen::present ? "there" : "not-there";
}

const char* word_for(job::SaidBy by) {
  switch (by) {
    case job::SaidBy::hand:
      return "hand";
    case job::SaidBy::hardness:
      return "hardness";
    case job::SaidBy::width:
      return "width";
    case job::SaidBy::check:
      return "check";
    case job::SaidBy::nobody:
      return "nobody";
  }
  return "";
}

OrderedJson ids(const std::vector<std::size_t>& causes, const job::CauseTables& tables) {
  auto out = OrderedJson::array();
  for (const std::size_t cause : causes)
    out.push_back(tables.causes()[cause].id);
  return out;
}

OrderedJson cause_entry(const reliability::RankedCause& cause, const CauseReport& report,
                        const job::CauseTables& tables) {
  auto evidence = OrderedJson::array();
  for (const auto& [which, weight] : cause.evidence) {
    const Source* source = tables.source_of(cause.cause, which);
    evidence.push_back(
        {{"finding", tables.findings()[which].id},
         {"seen", word_for(report.finding.evidence[which])},
         {"weight", weight},
         {"source", source == nullptr ? OrderedJson(nullptr) : OrderedJson(citation(*source))}});
  }
  const auto& entry = tables.causes()[cause.cause];
  return {{"cause", entry.id},
          {"title", entry.title.in(report.language)},
          {"probability", cause.probability},
          {"change", entry.change.in(report.language)},
          {"evidence", std::move(evidence)}};
}

OrderedJson evidence_list(const CauseReport& report, const job::CauseTables& tables) {
  auto out = OrderedJson::array();
  for (std::size_t i = 0; i < report.finding.evidence.size(); ++i)
    if (report.finding.evidence[i] != Seen::not_looked)
      out.push_back({{"finding", tables.findings()[i].id},
                     {"seen", word_for(report.finding.evidence[i])},
                     {"said_by", word_for(report.finding.said_by[i])}});
  return out;
}

OrderedJson track_json(const job::CauseFinding& finding) {
  if (!finding.track) return nullptr;
  return {{"excess_m", finding.track->excess.value()}, {"expanded_m", finding.track->expanded.value()}};
}

}  // namespace

std::string cause_json(const CauseReport& report, const job::CauseTables& tables) {
  const auto& found = report.finding.diagnosis;
  OrderedJson json = {{"file", report.file},
                      {"name", report.name},
                      {"told", report.finding.tells()},
                      {"headline", headline_text(tables, report.finding).in(report.language)},
                      {"named", ids(found.named, tables)},
                      {"rivals", ids(found.rivals, tables)},
                      {"evidence", evidence_list(report, tables)},
                      {"track", track_json(report.finding)},
                      {"unknown", report.finding.unknown}};
  json["causes"] = OrderedJson::array();
  for (const auto& cause : found.ranked)
    json["causes"].push_back(cause_entry(cause, report, tables));
  json["next"] = OrderedJson::array();
  for (const auto& next : found.next)
    json["next"].push_back(
        {{"finding", tables.findings()[next.finding].id}, {"chance", next.chance}, {"bits", next.bits}});
  return json_text(json);
}

}  // namespace pumpwright
