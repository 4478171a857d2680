#include "cli/trim_question.h"

#include <algorithm>

#include "cli/input_file.h"
#include "job/decode.h"
#include "job/sheets/performance_sheet.h"

namespace pumpwright {
namespace {

using hydraulics::RuleRange;
using job::JsonReader;

constexpr std::int64_t version = 1;

hydraulics::CutSettings read_settings(const JsonReader& json) {
  json.allow_only({"rule", "rule_doubt", "undershoot", "lathe", "least_step"});
  hydraulics::CutSettings s;
  if (const auto rule = json.optional("rule"))
    s.rule = rule->word({"affinity", "reduced-diameter"}) == "affinity"
                 ? hydraulics::CutRule::affinity
                 : hydraulics::CutRule::reduced_diameter;
  if (const auto x = json.optional("rule_doubt")) s.rule_doubt = decode_part(*x, 0, 1);
  if (const auto x = json.optional("undershoot")) s.undershoot = decode_part(*x, 0.001, 0.4);
  if (const auto x = json.optional("lathe")) s.lathe = decode_length(*x, 0, 0.01);
  if (const auto x = json.optional("least_step")) s.least_step = decode_length(*x, 0, 0.1);
  return s;
}

Length limit_of(const TrimFile& sheet, const hydraulics::TrimPlan& plan) {
  const Length by_rule = sheet.impeller.diameter * (1 - plan.deepest);
  return sheet.impeller.least_diameter ? std::max(by_rule, *sheet.impeller.least_diameter) : by_rule;
}

TrimAdvice advice_of(const TrimFile& sheet, const TrimFinding& f) {
  const auto& plan = f.plan;
  if (!plan.nominal) {
    const bool enough = plan.head_now_m.value > sheet.duty.head.value();
    return enough ? TrimAdvice::out_of_reach : TrimAdvice::too_little;
  }
  if (plan.range == RuleRange::shape_outside) return TrimAdvice::outside_rule;
  if (!plan.first) return TrimAdvice::leave;
  return plan.first->diameter < f.limit ? TrimAdvice::outside_rule : TrimAdvice::cut;
}

}  // namespace

TrimFile decode_trim_file(std::string_view bytes) {
  const auto json = JsonReader::parse(bytes);
  json.allow_only({"format", "version", "name", "note", "test", "duty", "impeller", "cut"});
  (void)json.required("format").word({"pumpwright-trim"});
  (void)json.required("version").integer(version, version);
  if (const auto note = json.optional("note")) (void)note->text();
  TrimFile file;
  file.name = json.required("name").text(200);
  file.test = decode_pump_test(json.required("test"));
  const auto duty = json.required("duty");
  duty.allow_only({"flow", "head"});
  file.duty.flow = cubic_metres_per_second(job::decode_positive(duty.required("flow"), Kind::volume_flow).si);
  file.duty.head = decode_length(duty.required("head"), 1e-3, 1e5);
  file.impeller = job::decode_impeller(json.required("impeller"));
  if (const auto cut = json.optional("cut")) file.settings = read_settings(*cut);
  return file;
}

TrimFinding answer(const TrimQuestion& q) {
  return naming_file(q.file, [&] {
    const auto model = job::placed("/test", [&] { return hydraulics::PerformanceModel(q.sheet.test.test); });
    TrimFinding f;
    f.plan = hydraulics::plan_trim(model, q.sheet.duty, q.sheet.impeller, q.sheet.settings);
    f.limit = limit_of(q.sheet, f.plan);
    f.advice = advice_of(q.sheet, f);
    if (f.plan.first && f.plan.nominal)
      f.second_is_worth = f.plan.first->diameter - f.plan.nominal->diameter >= q.sheet.settings.least_step;
    return f;
  });
}

const char* word_for(TrimAdvice advice) {
  switch (advice) {
    case TrimAdvice::cut:
      return "cut";
    case TrimAdvice::leave:
      return "leave";
    case TrimAdvice::too_little:
      return "too-little";
    case TrimAdvice::outside_rule:
      return "outside-rule";
    case TrimAdvice::out_of_reach:
      return "out-of-reach";
  }
  return "";
}

}  // namespace pumpwright
