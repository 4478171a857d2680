#include "job/plan_json.h"

#include <cmath>

#include <nlohmann/json.hpp>

#include "job/check_words.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;

template <class E, std::size_t N>
E from_word(const Words<E, N>& words, const JsonReader& at) {
  const std::string text = at.text(64);
  for (const auto& [word, value] : words)
    if (text == word) return value;
  at.refuse("a word this version knows");
}

json encode_text(const Text& text) {
  return {{"en", text.en}, {"es", text.es}};
}

Text decode_text(const JsonReader& at) {
  at.allow_only({"en", "es"});
  return {at.required("en").text(), at.required("es").text()};
}

std::string text_of(const JsonReader& at, std::string_view key) {
  return at.required(key).text();
}

json encode_pairing(const Pairing& p) {
  return {{"goes", word_in(goes_words, p.goes)},
          {"things", encode_text(p.things)},
          {"why", encode_text(p.why)},
          {"instead", encode_text(p.instead)}};
}

Pairing decode_pairing(const JsonReader& at) {
  at.allow_only({"goes", "things", "why", "instead"});
  return {from_word(goes_words, at.required("goes")), decode_text(at.required("things")),
          decode_text(at.required("why")), decode_text(at.required("instead"))};
}

json encode_check(const Check& c) {
  json chain = json::array();
  for (const auto& part : c.chain)
    chain.push_back({{"name", encode_text(part.name)},
                     {"coefficient", part.coefficient},
                     {"check", part.check},
                     {"dimension", part.dimension}});
  json limits = json::array();
  for (const auto& limit : c.limits)
    limits.push_back(encode_limit(limit));
  json out{{"id", c.id},
           {"kind", word_in(check_kind_words, c.kind)},
           {"judged", word_in(judged_words, c.judged)},
           {"quantity", info(c.quantity).name},
           {"from", c.from},
           {"place", c.place},
           {"turning", c.turning == Turning::rotating ? "rotating" : "standing"},
           {"instrument", c.instrument},
           {"title", encode_text(c.title)},
           {"if_it_fails", encode_text(c.if_it_fails)},
           {"limits", limits},
           {"sweep",
            {{"axis", c.sweep.face ? "face" : "radial"},
             {"radius", c.sweep.radius_dimension},
             {"over", c.sweep.over_dimension}}},
           {"chain", chain},
           {"starts_at", c.starts_at},
           {"ends_at", c.ends_at}};
  if (c.correction)
    out["correction"] = {{"name", encode_text(c.correction->name)}, {"check", c.correction->check}};
  if (c.pairing) out["pairing"] = encode_pairing(*c.pairing);
  if (c.sheet) out["sheet"] = word_in(sheet_words, *c.sheet);
  return out;
}

// Of a pairing a limit has no bounds; of a sheet it need not have any.
Limit decode_limit(const JsonReader& at, CheckKind of) {
  at.allow_only({"id", "rank", "rule", "ratio", "lower", "upper", "source", "asks"});
  Limit limit;
  limit.id = text_of(at, "id");
  const auto rank = rank_from(text_of(at, "rank"));
  if (!rank) at.required("rank").refuse("job, customer, family, standard or common-practice");
  limit.rank = *rank;
  limit.decision = {
      at.required("rule").word({"guarded", "simple"}) == "simple" ? Rule::simple : Rule::guarded,
      at.required("ratio").number()};
  if (const auto lower = at.optional("lower")) limit.lower = decode_frozen(*lower);
  if (const auto upper = at.optional("upper")) limit.upper = decode_frozen(*upper);
  const bool bounded = limit.lower || limit.upper;
  if (of == CheckKind::pairing && bounded) at.refuse("a limit without bounds, since it is a pairing's");
  if (of != CheckKind::pairing && of != CheckKind::sheet && !bounded)
    at.refuse("a limit with a lower or an upper bound");
  if (const auto asks = at.optional("asks")) limit.asks = decode_text(*asks);
  limit.source = decode_source(at.required("source"));
  return limit;
}

ChainPart decode_part(const JsonReader& at) {
  at.allow_only({"name", "coefficient", "check", "dimension"});
  return {decode_text(at.required("name")), at.required("coefficient").number(), text_of(at, "check"),
          text_of(at, "dimension")};
}

Kind decode_kind(const JsonReader& at) {
  const auto kind = kind_named(at.text(64));
  if (!kind) at.refuse("a kind of quantity");
  return *kind;
}

Check decode_check(const JsonReader& at) {
  at.allow_only({"id", "kind", "judged", "quantity", "from", "place", "turning", "instrument", "title",
                 "if_it_fails", "limits", "sweep", "chain", "starts_at", "ends_at", "pairing", "correction",
                 "sheet"});
  Check c;
  c.id = text_of(at, "id");
  c.kind = from_word(check_kind_words, at.required("kind"));
  c.judged = from_word(judged_words, at.required("judged"));
  c.quantity = decode_kind(at.required("quantity"));
  c.from = text_of(at, "from");
  c.place = text_of(at, "place");
  c.turning = at.required("turning").word({"rotating", "standing"}) == "rotating" ? Turning::rotating
                                                                                  : Turning::standing;
  c.instrument = text_of(at, "instrument");
  c.title = decode_text(at.required("title"));
  c.if_it_fails = decode_text(at.required("if_it_fails"));
  for (const auto& limit : at.required("limits").items(1000))
    c.limits.push_back(decode_limit(limit, c.kind));
  const JsonReader sweep = at.required("sweep");
  sweep.allow_only({"axis", "radius", "over"});
  c.sweep = {sweep.required("axis").word({"radial", "face"}) == "face", text_of(sweep, "radius"),
             text_of(sweep, "over")};
  for (const auto& part : at.required("chain").items(1000))
    c.chain.push_back(decode_part(part));
  c.starts_at = text_of(at, "starts_at");
  c.ends_at = text_of(at, "ends_at");
  if (const auto with = at.optional("correction")) {
    with->allow_only({"name", "check"});
    c.correction = ChainCorrection{decode_text(with->required("name")), text_of(*with, "check")};
  }
  if (const auto pairing = at.optional("pairing")) c.pairing = decode_pairing(*pairing);
  if (c.pairing.has_value() != (c.kind == CheckKind::pairing))
    at.refuse("\"pairing\" in a pairing and nowhere else");
  if (const auto sheet = at.optional("sheet")) c.sheet = from_word(sheet_words, *sheet);
  if (c.sheet.has_value() != (c.kind == CheckKind::sheet))
    at.refuse("\"sheet\" in a check of that kind and nowhere else");
  return c;
}

Step decode_step(const JsonReader& at) {
  at.allow_only({"id", "stage", "title", "do", "caution", "source", "hold", "checks"});
  Step step;
  step.id = text_of(at, "id");
  const auto stage = stage_from(text_of(at, "stage"));
  if (!stage) at.required("stage").refuse("a stage of the work");
  step.stage = *stage;
  step.title = decode_text(at.required("title"));
  step.what_to_do = decode_text(at.required("do"));
  step.caution = decode_text(at.required("caution"));
  step.source = decode_source(at.required("source"));
  step.hold = at.required("hold").boolean();
  for (const auto& check : at.required("checks").items(1000))
    step.checks.push_back(decode_check(check));
  return step;
}

}  // namespace

json encode_written(const Written& w) {
  return {{"text", w.text},
          {"si", w.si},
          {"kind", info(w.unit->kind).name},
          {"unit", w.unit->symbol},
          {"decimals", w.decimals},
          {"last_place_si", w.last_place_si}};
}

Written decode_frozen(const JsonReader& at) {
  at.allow_only({"text", "si", "kind", "unit", "decimals", "last_place_si"});
  const Kind kind = decode_kind(at.required("kind"));
  const JsonReader unit = at.required("unit");
  Written w;
  w.unit = kind == Kind::number ? &si_unit(kind) : find_unit(unit.text(32), kind);
  if (w.unit == nullptr) unit.refuse("a unit of that kind");
  w.text = at.required("text").text(256);
  w.si = at.required("si").number();
  w.number = from_si(w.si, *w.unit);
  w.decimals = static_cast<int>(at.required("decimals").integer(0, 100));
  w.last_place_si = at.required("last_place_si").number();
  return w;
}

json encode_source(const Source& s) {
  return {{"document", s.document},
          {"edition", s.edition},
          {"clause", s.clause},
          {"obtained", word_of(s.obtained)},
          {"note", s.note}};
}

Source decode_source(const JsonReader& at) {
  at.allow_only({"document", "edition", "clause", "obtained", "note"});
  const JsonReader word = at.required("obtained");
  const auto obtained = obtained_from(word.text(32));
  if (!obtained) word.refuse("one of read, remembered, common-practice, shop-rule");
  const auto optional = [&](std::string_view key) {
    const auto value = at.optional(key);
    return value ? value->text() : std::string();
  };
  return {at.required("document").text(), optional("edition"), optional("clause"), *obtained,
          optional("note")};
}

json encode_limit(const Limit& limit) {
  json out{{"id", limit.id},
           {"rank", word_of(limit.rank)},
           {"rule", limit.decision.rule == Rule::simple ? "simple" : "guarded"},
           {"ratio", limit.decision.ratio},
           {"source", encode_source(limit.source)}};
  if (limit.lower) out["lower"] = encode_written(*limit.lower);
  if (limit.upper) out["upper"] = encode_written(*limit.upper);
  if (!limit.asks.empty()) out["asks"] = encode_text(limit.asks);
  return out;
}

json encode_plan(const Plan& plan) {
  json steps = json::array();
  for (const auto& s : plan.steps) {
    json checks = json::array();
    for (const auto& c : s.checks)
      checks.push_back(encode_check(c));
    steps.push_back({{"id", s.id},
                     {"stage", word_of(s.stage)},
                     {"title", encode_text(s.title)},
                     {"do", encode_text(s.what_to_do)},
                     {"caution", encode_text(s.caution)},
                     {"source", encode_source(s.source)},
                     {"hold", s.hold},
                     {"checks", checks}});
  }
  return {{"steps", steps}};
}

Plan decode_plan(const JsonReader& at) {
  at.allow_only({"steps"});
  Plan plan;
  for (const auto& step : at.required("steps").items(1000))
    plan.steps.push_back(decode_step(step));
  return plan;
}

}  // namespace pumpwright::job
