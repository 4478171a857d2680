#include "job/step_texts.h"

#include <algorithm>

#include "job/section.h"
#include "job/toml_words.h"

namespace pumpwright::job {
namespace {

constexpr Words<Rule, 2> rules{{{"guarded", Rule::guarded}, {"simple", Rule::simple}}};

Text optional_text(const TomlReader& at, std::string_view key) {
  const auto inner = at.optional_table(key);
  return inner ? toml_text(*inner) : Text{};
}

Source decode_source(const TomlReader& at) {
  at.allow_only({"document", "edition", "clause", "obtained", "note"});
  const std::string word = at.text("obtained");
  const auto obtained = obtained_from(word);
  if (!obtained) at.refuse("obtained", word, "one of read remembered common-practice shop-rule");
  return {at.text("document"), at.text_or("edition", ""), at.text_or("clause", ""), *obtained,
          at.text_or("note", "")};
}

Condition decode_condition(const TomlReader& at) {
  return {at.texts("when"), at.texts("unless")};
}

BoundFrom decode_bound(const TomlReader& at) {
  at.allow_only({"table", "row", "group", "at", "frame", "column", "below", "fit_at", "times", "dimension",
                 "part", "text", "fastener", "sheet"});
  const int ways = int{at.has("table") || at.has("frame")} + int{at.has("dimension")} + int{at.has("text")} +
                   int{at.has("fastener")} + int{at.has("sheet")};
  if (ways != 1) at.refuse("table", "", "exactly one of table (or frame), dimension, text, fastener, sheet");
  BoundFrom b;
  b.table = at.text_or("table", "");
  b.row = at.text_or("row", "");
  b.group = at.text_or("group", "");
  b.at = at.text_or("at", "");
  b.frame = at.flag_or("frame", false);
  b.fit_at = at.text_or("fit_at", "");
  if ((!b.table.empty() || b.frame) && b.fit_at.empty()) b.column = at.text("column");
  b.below = at.text_or("below", "");
  b.times = at.text_or("times", "");
  b.dimension = at.text_or("dimension", "");
  b.part = at.text_or("part", "nominal");
  b.text = at.text_or("text", "");
  b.fastener = at.text_or("fastener", "");
  b.sheet = at.text_or("sheet", "");
  return b;
}

LimitFrom decode_limit(const TomlReader& at) {
  at.allow_only({"rank", "rule", "ratio", "when", "unless", "lower", "upper", "source"});
  LimitFrom limit;
  const std::string word = at.text("rank");
  const auto rank = rank_from(word);
  if (!rank) at.refuse("rank", word, "one of job customer family standard common-practice");
  limit.rank = *rank;
  if (at.has("rule")) limit.decision.rule = one_of(at, "rule", rules);
  limit.decision.ratio = at.number_or("ratio", limit.decision.ratio);
  limit.condition = decode_condition(at);
  if (const auto lower = at.optional_table("lower")) limit.lower = decode_bound(*lower);
  if (const auto upper = at.optional_table("upper")) limit.upper = decode_bound(*upper);
  if (!limit.lower && !limit.upper) at.refuse("upper", "nothing", "a lower or an upper bound");
  if (const auto source = at.optional_table("source")) limit.source = decode_source(*source);
  return limit;
}

ChainPartText decode_chain_part(const TomlReader& at) {
  at.allow_only({"name", "coefficient", "check", "dimension", "when", "unless"});
  ChainPart part{toml_text(at.table("name")), at.number_or("coefficient", 1), at.text_or("check", ""),
                 at.text_or("dimension", "")};
  if (part.check.empty() == part.dimension.empty()) at.refuse("check", "", "either a check or a dimension");
  return {std::move(part), decode_condition(at)};
}

std::string decode_place(const TomlReader& at) {
  std::string place = at.text("place");
  const auto names = place_names();
  if (std::find(names.begin(), names.end(), place) == names.end())
    at.refuse("place", place, "a place of the section");
  return place;
}

Kind decode_quantity(const TomlReader& at) {
  if (!at.has("quantity")) return Kind::length;
  const std::string word = at.text("quantity");
  const auto kind = kind_named(word);
  if (!kind) at.refuse("quantity", word, "a kind of quantity such as length or torque");
  return *kind;
}

CheckText decode_check(const TomlReader& at) {
  at.allow_only({"id", "kind", "judged", "quantity", "from", "place", "turning", "instrument", "title",
                 "if_it_fails", "sweep", "chain", "elapsed", "pair", "sheet", "correct_with", "limit", "when",
                 "unless"});
  CheckText out;
  Check& c = out.check;
  c.id = at.text("id");
  c.kind = one_of(at, "kind", check_kind_words);
  c.judged = one_of(at, "judged", judged_words);
  c.quantity = decode_quantity(at);
  c.from = at.text_or("from", "");
  c.place = decode_place(at);
  c.turning = one_of(at, "turning", turning_words);
  c.instrument = at.text_or("instrument", "none");
  c.title = toml_text(at.table("title"));
  c.if_it_fails = toml_text(at.table("if_it_fails"));
  if (const auto sweep = at.optional_table("sweep")) {
    sweep->allow_only({"axis", "radius", "over"});
    c.sweep = {sweep->text("axis") == "face", sweep->text_or("radius", ""), sweep->text_or("over", "")};
  }
  for (const auto& part : at.tables("chain"))
    out.chain.push_back(decode_chain_part(part));
  if (const auto with = at.optional_table("correct_with")) {
    with->allow_only({"name", "check"});
    c.correction = ChainCorrection{toml_text(with->table("name")), with->text("check")};
  }
  if (const auto elapsed = at.optional_table("elapsed")) {
    c.starts_at = elapsed->text("from");
    c.ends_at = elapsed->text("to");
  }
  if (c.kind == CheckKind::sheet) c.sheet = one_of(at, "sheet", sheet_words);
  if (c.kind == CheckKind::pairing) out.pair = one_of(at, "pair", pair_words);
  out.condition = decode_condition(at);
  for (const auto& limit : at.tables("limit"))
    out.limits.push_back(decode_limit(limit));
  return out;
}

StepText decode_step(const TomlReader& at) {
  at.allow_only({"id", "stage", "title", "do", "caution", "source", "hold", "when", "unless", "check"});
  StepText out;
  out.step.id = at.text("id");
  const auto stage = stage_from(at.text("stage"));
  if (!stage) at.refuse("stage", at.text("stage"), "a stage such as receive or fit");
  out.step.stage = *stage;
  out.step.title = toml_text(at.table("title"));
  out.step.what_to_do = toml_text(at.table("do"));
  out.step.caution = optional_text(at, "caution");
  out.step.source = decode_source(at.table("source"));
  out.step.hold = at.flag_or("hold", false);
  out.condition = decode_condition(at);
  for (const auto& check : at.tables("check"))
    out.checks.push_back(decode_check(check));
  return out;
}

std::vector<StepText> decode_file(const NamedBytes& file) {
  const toml::table root = parse_toml(file);
  const TomlReader at(root, std::string(file.name));
  at.allow_only({"step"});
  std::vector<StepText> out;
  for (const auto& step : at.tables("step"))
    out.push_back(decode_step(step));
  return out;
}

}  // namespace

bool Condition::holds(const std::set<std::string>& tags) const {
  const auto has = [&](const std::string& tag) { return tags.count(tag) != 0; };
  return std::all_of(when.begin(), when.end(), has) && std::none_of(unless.begin(), unless.end(), has);
}

std::vector<StepText> load_step_texts(std::span<const NamedBytes> files) {
  std::vector<NamedBytes> ordered(files.begin(), files.end());
  std::sort(ordered.begin(), ordered.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
  std::vector<StepText> out;
  for (const auto& file : ordered) {
    auto steps = decode_file(file);
    std::move(steps.begin(), steps.end(), std::back_inserter(out));
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return a.step.stage < b.step.stage; });
  return out;
}

}  // namespace pumpwright::job
