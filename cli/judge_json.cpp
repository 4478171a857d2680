// What `pumpwright judge --json` prints. Values in the SI unit of the check's quantity.
#include "cli/job_wording.h"
#include "cli/json_values.h"
#include "cli/judge_report.h"
#include "job/plan_json.h"

namespace pumpwright {
namespace {

using job::Language;

OrderedJson text_or_null(const std::string& text) {
  return text.empty() ? OrderedJson(nullptr) : OrderedJson(text);
}

OrderedJson reading_json(const job::JudgedReading& reading, Language language) {
  OrderedJson json = {{"reading", text_or_null(reading.reading_id)},
                      {"as_written", reading.as_written},
                      {"verdict", job::word_of(reading.verdict)},
                      {"reason", job::word_of(reading.reason)}};
  json["value_si"] = reading.value ? json_number(reading.value->si()) : OrderedJson(nullptr);
  json["standard_uncertainty_si"] = json_number(reading.standard_uncertainty);
  json["margin_si"] = json_number(reading.margin);
  json["conformance_probability"] = json_number(reading.conformance_probability);
  json["settle"] = reading.settle ? text_or_null(reading.settle->text.in(language)) : OrderedJson(nullptr);
  json["remarks"] = OrderedJson::array();
  for (const auto& remark : reading.remarks)
    json["remarks"].push_back(remark.in(language));
  if (reading.sweep) {
    json["tir_m"] = json_number(reading.sweep->tir.value.value());
    json["eccentricity_m"] = json_number(reading.sweep->eccentricity.value.value());
    json["high_spot_deg"] = json_degrees(claimed_high_spot(*reading.sweep));
  }
  return json;
}

OrderedJson chain_json(const std::vector<job::ChainShare>& chain, Language language) {
  auto list = OrderedJson::array();
  for (const auto& share : chain)
    list.push_back({{"name", share.name.in(language)},
                    {"coefficient", share.coefficient},
                    {"value_si", json_number(share.value.si())},
                    {"standard_uncertainty_si", json_number(share.standard_uncertainty)},
                    {"fraction", json_number(share.fraction)}});
  return list;
}

OrderedJson check_json(const job::Step& step, const job::Check& check, const job::CheckFinding& finding,
                       Language language) {
  OrderedJson json = {{"check", check.id},
                      {"step", step.id},
                      {"stage", job::word_of(step.stage)},
                      {"title", check.title.in(language)},
                      {"quantity", info(check.quantity).name},
                      {"verdict", job::word_of(finding.verdict)},
                      {"reason", job::word_of(finding.reason)},
                      {"deviation_accepted", finding.deviation_accepted}};
  json["limits"] = OrderedJson::array();
  for (const auto& limit : check.limits)
    json["limits"].push_back(OrderedJson(job::encode_limit(limit)));
  json["readings"] = OrderedJson::array();
  for (const auto& reading : finding.readings)
    json["readings"].push_back(reading_json(reading, language));
  if (!finding.chain.empty()) json["chain"] = chain_json(finding.chain, language);
  return json;
}

OrderedJson state_json(const std::optional<CheckState>& state) {
  if (!state) return nullptr;
  return {{"verdict", job::word_of(state->verdict)},
          {"reason", job::word_of(state->reason)},
          {"limit", text_or_null(state->limit)}};
}

OrderedJson again_json(const JudgedAgain& again) {
  OrderedJson json = {{"catalog_digest", text_or_null(again.catalog_digest)},
                      {"program", text_or_null(again.program)},
                      {"refused", text_or_null(again.refused)}};
  json["changes"] = OrderedJson::array();
  for (const auto& change : again.changes)
    json["changes"].push_back(
        {{"check", change.check}, {"was", state_json(change.was)}, {"now", state_json(change.now)}});
  return json;
}

}  // namespace

std::string judge_json(const JobSession& session, const JobVerdict& verdict, Language language) {
  const auto& judgement = verdict.judgement;
  OrderedJson json = {{"file", session.path},
                      {"job", session.file.header.number},
                      {"frozen", session.frozen},
                      {"catalog_digest", session.snapshot.catalog_digest},
                      {"program", session.snapshot.program},
                      {"all_pass", judgement.all_pass()},
                      {"counts",
                       {{"pass", judgement.passed},
                        {"fail", judgement.failed},
                        {"unproven", judgement.unproven},
                        {"not-taken", judgement.not_taken}}}};
  json["checks"] = OrderedJson::array();
  for (const auto& step : session.snapshot.plan.steps)
    for (const auto& check : step.checks)
      json["checks"].push_back(check_json(step, check, *judgement.find(check.id), language));
  json["open"] = OrderedJson::array();
  for (const auto& point : judgement.open)
    json["open"].push_back(
        {{"step", point.step}, {"check", text_or_null(point.check)}, {"what", point.what.in(language)}});
  if (verdict.again) json["again"] = again_json(*verdict.again);
  return json_text(json);
}

}  // namespace pumpwright
