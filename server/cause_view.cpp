#include "server/cause_view.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "catalog/embedded.h"
#include "job/cause_wording.h"
#include "server/amount_json.h"

namespace pumpwright::server {
namespace {

using job::CauseFinding;
using job::CauseTables;
using job::Text;
using nlohmann::json;
using reliability::RankedCause;
using reliability::Seen;

json said(const Text& text) {
  return text.empty() ? json(nullptr) : text_json(text);
}

json finding_row(std::size_t which) {
  const auto& entry = shipped_causes().findings()[which];
  return {{"finding", entry.id}, {"title", text_json(entry.title)}, {"look", text_json(entry.look)}};
}

// What a check of the job can say is picked by hand too: the pump that failed may not have been as the next
// one is built.
json parts_view() {
  json out = json::array();
  for (std::size_t i = 0; i < shipped_causes().findings().size(); ++i) {
    const std::string& part = shipped_causes().findings()[i].part;
    if (out.empty() || out.back()["part"] != part)
      out.push_back(
          {{"part", part}, {"title", text_json(job::part_text(part))}, {"findings", json::array()}});
    out.back()["findings"].push_back(finding_row(i));
  }
  return out;
}

json evidence_view(const RankedCause& cause, const CauseFinding& finding) {
  json out = json::array();
  for (const auto& [which, weight] : job::evidence_to_show(cause)) {
    const Source* source = shipped_causes().source_of(cause.cause, which);
    out.push_back({{"finding", shipped_causes().findings()[which].id},
                   {"title", text_json(shipped_causes().findings()[which].title)},
                   {"seen", text_json(seen_text(finding, which))},
                   {"there", finding.evidence[which] == Seen::present},
                   {"weight", weight},
                   {"source", source == nullptr ? json(nullptr) : json(citation(*source))}});
  }
  return out;
}

json ranking_view(const CauseFinding& finding) {
  json out = json::array();
  const auto& named = finding.diagnosis.named;
  for (const RankedCause& cause : job::causes_to_show(finding)) {
    const auto& entry = shipped_causes().causes()[cause.cause];
    out.push_back({{"cause", entry.id},
                   {"title", text_json(entry.title)},
                   {"chance", text_json(job::probability_text(cause.probability))},
                   {"probability", cause.probability},
                   {"named", std::find(named.begin(), named.end(), cause.cause) != named.end()},
                   {"change", text_json(entry.change)},
                   {"evidence", evidence_view(cause, finding)}});
  }
  return out;
}

json next_view(const CauseFinding& finding) {
  json out = json::array();
  for (const auto& next : job::next_to_show(finding)) {
    json row = finding_row(next.finding);
    row["part"] = text_json(job::part_text(shipped_causes().findings()[next.finding].part));
    out.push_back(std::move(row));
  }
  return out;
}

json view_of(const CauseFinding& finding) {
  return {{"told", finding.tells()},
          {"headline", text_json(headline_text(shipped_causes(), finding))},
          {"track", said(track_text(finding))},
          {"causes", ranking_view(finding)},
          {"next", next_view(finding)},
          {"unknown", finding.unknown}};
}

}  // namespace

const CauseTables& shipped_causes() {
  static const CauseTables tables = CauseTables::from(Catalog::load(embedded_catalog()));
  return tables;
}

json cause_view(const job::Snapshot& snapshot, const job::JobState& state, const job::Judgement& judgement) {
  const auto finding = job::cause_of(shipped_causes(), snapshot, state, judgement);
  return {{"parts", parts_view()}, {"cause", finding ? view_of(*finding) : json(nullptr)}};
}

json tried_cause_view(const job::StripDownSheet& sheet, const job::Judgement& judgement) {
  return {{"cause", view_of(job::cause_of(shipped_causes(), sheet, judgement))}};
}

}  // namespace pumpwright::server
