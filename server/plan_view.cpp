#include "server/plan_view.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "job/bench_sheet.h"
#include "job/check_words.h"
#include "report/amount_text.h"
#include "server/amount_json.h"
#include "server/finding_view.h"
#include "server/make_up_form.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

json source_view(const Source& source) {
  std::string line = source.document;
  if (!source.edition.empty()) line += ", " + source.edition;
  if (!source.clause.empty()) line += ", " + source.clause;
  const job::Text how = job::title_of(source.obtained);
  return {{"en", line + " (" + how.en + ")"}, {"es", line + " (" + how.es + ")"}};
}

template <class Mark>
json mark_view(const std::map<std::string, Mark>& marks, const std::string& step) {
  const auto at = marks.find(step);
  if (at == marks.end()) return nullptr;
  return {{"actor", at->second.actor}, {"time", job::format_utc_time(at->second.time)}};
}

const char* state_word(const job::Step& step, const job::JobState& state) {
  if (state.steps_done.count(step.id) == 0) return "open";
  return step.hold && state.holds_released.count(step.id) == 0 ? "waits" : "done";
}

json notes_view(const job::LoggedJob* logged, const std::string& step) {
  json out = json::array();
  if (logged == nullptr) return out;
  for (const auto& note : logged->notes)
    if (note.step == step) out.push_back({{"actor", note.actor}, {"time", note.at}, {"text", note.text}});
  return out;
}

json attachments_view(const job::LoggedJob* logged, const std::string& step) {
  json out = json::array();
  if (logged == nullptr) return out;
  for (const auto& file : logged->attachments)
    if (file.step == step)
      out.push_back({{"hash", file.hash},
                     {"media_type", file.media_type},
                     {"name", file.name},
                     {"actor", file.actor},
                     {"time", file.at},
                     {"check", text_or_null(file.check)}});
  return out;
}

json step_view(const job::Step& step, const PlanInView& in) {
  json checks = json::array();
  for (const auto& check : step.checks)
    checks.push_back(check.id);
  return {{"id", step.id},
          {"stage", job::word_of(step.stage)},
          {"title", text_json(step.title)},
          {"what", text_json(step.what_to_do)},
          {"caution", step.caution.empty() ? json(nullptr) : text_json(step.caution)},
          {"source", source_view(step.source)},
          {"hold", step.hold},
          {"own_text", step.source.obtained == Obtained::shop_rule},
          {"done", mark_view(in.state.steps_done, step.id)},
          {"released", mark_view(in.state.holds_released, step.id)},
          {"state", state_word(step, in.state)},
          {"checks", checks},
          {"notes", notes_view(in.logged, step.id)},
          {"attachments", attachments_view(in.logged, step.id)}};
}

job::Text rule_text(const job::DecisionRule& rule) {
  if (rule.rule == job::Rule::guarded)
    return {"guarded: proven against the measurement's doubt",
            "con banda de guarda: probado frente a la duda de la medida"};
  return {fmt::format("as read, with an instrument of at least {:g} graduations in the limit", rule.ratio),
          fmt::format("tal como se lee, con un instrumento de al menos {:g} divisiones en el límite",
                      rule.ratio)};
}

json bound_view(const std::optional<Written>& bound) {
  if (!bound) return nullptr;
  const AnyQuantity value = bound->quantity();
  const Unit& unit = bound->unit == nullptr ? si_unit(value.kind()) : *bound->unit;
  return amount_json(value, units_beside(unit, value), 0);
}

// One bound in a unit, as written when it was written in that unit: "7 thou".
std::string bound_text(const Written& bound, const Unit& unit) {
  job::Limit alone;
  alone.upper = bound;
  const std::string converted = report::limit_text_in(alone, unit);
  const std::string text = converted.empty() ? report::limit_text(alone) : converted;
  constexpr std::string_view sign = "≤ ";
  return text.substr(sign.size());
}

json limit_words(const job::Limit& limit, const Unit& unit) {
  if (!limit.lower) {
    const std::string upper = bound_text(*limit.upper, unit);
    return text_json({"at most " + upper, "como máximo " + upper});
  }
  const std::string lower = bound_text(*limit.lower, unit);
  if (!limit.upper) return text_json({"at least " + lower, "como mínimo " + lower});
  const std::string upper = bound_text(*limit.upper, unit);
  return text_json({lower + " to " + upper, "de " + lower + " a " + upper});
}

// In both systems of units; of a limit without bounds, what it asks.
json limit_text_view(const job::Limit& limit) {
  if (!limit.lower && !limit.upper) {
    const json words = text_json(job::asked_by(limit));
    return {{"inch", words}, {"metric", words}};
  }
  const Written& bound = limit.upper ? *limit.upper : *limit.lower;
  const AnyQuantity value = bound.quantity();
  const ShownUnits units = units_beside(bound.unit == nullptr ? si_unit(value.kind()) : *bound.unit, value);
  return {{"inch", limit_words(limit, *units.inch)}, {"metric", limit_words(limit, *units.metric)}};
}

json limit_view(const job::Limit& limit, bool decides) {
  return {{"id", limit.id},
          {"decides", decides},
          {"lower", bound_view(limit.lower)},
          {"upper", bound_view(limit.upper)},
          {"text", limit_text_view(limit)},
          {"as_written", report::limit_text(limit)},
          {"rank", text_json(job::title_of(limit.rank))},
          {"obtained", text_json(job::title_of(limit.source.obtained))},
          {"source", source_view(limit.source)},
          {"rule", text_json(rule_text(limit.decision))}};
}

json limits_view(const job::Check& check) {
  json out = json::array();
  for (std::size_t i = 0; i < check.limits.size(); ++i)
    out.push_back(limit_view(check.limits[i], i == 0));
  return out;
}

bool takes_reading(const job::Check& check) {
  using job::CheckKind;
  return check.from.empty() && (check.kind == CheckKind::confirmation || check.kind == CheckKind::value ||
                                check.kind == CheckKind::size || check.kind == CheckKind::sweep ||
                                (check.sheet && job::parts_of(*check.sheet).takes_reading()));
}

// Half of the dimension on which a face is swept; null when the make-up does not give it.
json radius_view(const job::Check& check, const job::MakeUp& make_up) {
  const job::Dimension* dimension = make_up.dimension(check.sweep.radius_dimension);
  if (dimension == nullptr) return nullptr;
  return amount_json(AnyQuantity(Kind::length, dimension->nominal.value() / 2));
}

json check_view(const job::Step& step, const job::Check& check, const PlanInView& in) {
  json out{{"id", check.id},
           {"step", step.id},
           {"kind", job::word_in(job::check_kind_words, check.kind)},
           {"judged", job::word_in(job::judged_words, check.judged)},
           {"from", check.from},
           {"quantity", info(check.quantity).name},
           {"place", check.place},
           {"turning", job::word_in(job::turning_words, check.turning)},
           {"instrument", check.instrument},
           {"title", text_json(check.title)},
           {"if_it_fails", check.if_it_fails.empty() ? json(nullptr) : text_json(check.if_it_fails)},
           {"takes_reading", takes_reading(check)},
           {"sheet", check.sheet ? json(job::word_in(job::sheet_words, *check.sheet)) : json(nullptr)},
           {"form", check.sheet ? sheet_fields_view(*check.sheet, job::FieldPart::reading) : json::array()},
           {"face", check.sweep.face},
           {"radius", radius_view(check, in.snapshot.make_up)},
           {"limits", limits_view(check)}};
  // The judgement has a finding for every check of its plan.
  out["finding"] = finding_view(check, *in.judgement.find(check.id), in.state);
  return out;
}

}  // namespace

json stages_view(const job::Plan& plan) {
  json out = json::array();
  const job::Step* before = nullptr;
  for (const auto& step : plan.steps) {
    if (before == nullptr || before->stage != step.stage)
      out.push_back({{"word", job::word_of(step.stage)}, {"title", text_json(job::title_of(step.stage))}});
    before = &step;
  }
  return out;
}

json steps_view(const PlanInView& in) {
  json out = json::array();
  for (const auto& step : in.snapshot.plan.steps)
    out.push_back(step_view(step, in));
  return out;
}

json checks_view(const PlanInView& in) {
  json out = json::array();
  for (const auto& step : in.snapshot.plan.steps)
    for (const auto& check : step.checks)
      out.push_back(check_view(step, check, in));
  return out;
}

json next_step_view(const job::Plan& plan, const job::JobState& state) {
  for (const auto& step : plan.steps)
    if (state_word(step, state) != std::string_view("done"))
      return {{"id", step.id}, {"title", text_json(step.title)}};
  return nullptr;
}

}  // namespace pumpwright::server
