#include "job/plan_generator.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/assembly/iso286.h"
#include "engine/quantity/bad_input.h"
#include "engine/quantity/format.h"
#include "job/pairing.h"

namespace pumpwright::job {
namespace {

[[noreturn]] void refuse_step_data(const std::string& check, const std::string& value,
                                   const std::string& expected) {
  throw BadInput({.field = "limit", .place = "steps: check " + check, .value = value, .expected = expected});
}

// Everything a bound may be looked up in.
struct Lookup {
  const MakeUp& make_up;
  const Catalog& catalog;
  const std::string& check;
  Kind kind;

  const Table& table(const std::string& name) const {
    const Table* found = catalog.table(name);
    if (found == nullptr) refuse_step_data(check, name, "a table of the catalog");
    return *found;
  }
};

std::string table_of(const BoundFrom& from, const Lookup& in) {
  return from.frame ? frame_table_of(in.make_up.driver) : from.table;
}

std::vector<const Row*> rows_of(const BoundFrom& from, const Lookup& in) {
  const Table& table = in.table(table_of(from, in));
  if (from.frame) return {table.find(in.make_up.driver.frame)};
  if (!from.group.empty()) return table.rows_of_group(from.group);
  if (!from.at.empty()) {
    const Dimension* size = in.make_up.dimension(from.at);
    return size == nullptr ? std::vector<const Row*>{} : table.rows_for(size->nominal);
  }
  if (from.row == "$elastomer") return elastomers_named(in.catalog, in.make_up.seal.elastomer);
  const Row* row = table.find(from.row == "$lubricant" ? in.make_up.seal.lubricant : from.row);
  if (row == nullptr && from.row == "$lubricant")
    throw BadInput({.field = "lubricant",
                    .place = "/make_up/seal/lubricant",
                    .value = in.make_up.seal.lubricant,
                    .expected = fmt::format("a row of the catalog table {0} (`pumpwright catalog show {0}`)",
                                            from.table)});
  if (row == nullptr) refuse_step_data(in.check, from.table + "/" + from.row, "a row of the catalog");
  return {row};
}

// A value that the program computed, with the text a reader will see.
Written computed(Kind kind, double si, const Unit& unit, std::string text) {
  Written w;
  w.text = std::move(text);
  w.si = si;
  w.number = from_si(si, unit);
  w.unit = &unit_with_symbol(unit.symbol, kind);
  return w;
}

const Column& column_of(const BoundFrom& from, const Row& row, const Lookup& in) {
  const auto& columns = row.columns();
  const auto at =
      std::find_if(columns.begin(), columns.end(), [&](const Column& c) { return c.name == from.column; });
  if (at == columns.end())
    refuse_step_data(in.check, row.id() + "." + from.column, "a column of the catalog table");
  return *at;
}

// A computed bound in the unit its dimension was written in: sizes to a micrometre or a tenth of a thou,
// small lengths to three digits.
Written in_unit_of(const Dimension& like, double si) {
  const Unit& unit = *parse_written(like.text, Kind::length, {.field = "dimension"}).unit;
  const AnyQuantity value(Kind::length, si);
  const double step_si = unit.system == System::inch ? 2.54e-6 : 1e-6;
  const bool small = std::fabs(si) < 1000 * step_si;
  return computed(
      Kind::length, si, unit,
      small ? format_significant(value, unit, 3) : format_graduated(value, unit, metres(step_si)));
}

// Size limits of an ISO 286 class ("k6") at a dimension of the make-up.
std::optional<Written> class_bound(const BoundFrom& from, const std::string& words, const Dimension& size) {
  const FitDesignation designation =
      parse_fit(fmt::format("{} {}", size.nominal.value() * 1e3, words), "tolerance class");
  const SizeLimits limits =
      limits_of(designation.basic, designation.shaft ? *designation.shaft : *designation.hole);
  return in_unit_of(size, (from.part == "lower" ? limits.smallest : limits.largest).value());
}

// Clearance of a fits row at a dimension.
std::optional<Written> fit_bound(const BoundFrom& from, const Row& row, const Lookup& in) {
  const Dimension* size = in.make_up.dimension(from.fit_at);
  if (size == nullptr || row.text("hole").empty() || row.text("shaft").empty()) return std::nullopt;
  const FitDesignation d = parse_fit(
      fmt::format("{} {}/{}", size->nominal.value() * 1e3, row.text("hole"), row.text("shaft")), "fit class");
  const FitRange range = fit_between(limits_of(d.basic, *d.hole), limits_of(d.basic, *d.shaft));
  return in_unit_of(*size,
                    (from.part == "lower" ? range.smallest_clearance : range.largest_clearance).value());
}

std::optional<Written> cell_of(const BoundFrom& from, const Row& row, const Lookup& in) {
  if (!from.fit_at.empty()) return fit_bound(from, row, in);
  const Column& column = column_of(from, row, in);
  const Value* value = row.value(from.column);
  if (value == nullptr) return std::nullopt;
  if (column.kind == ColumnKind::text) {
    const Dimension* size = in.make_up.dimension(from.at);
    return size == nullptr ? std::nullopt : class_bound(from, value->text, *size);
  }
  if (!from.times.empty()) {
    const Dimension* by = in.make_up.dimension(from.times);
    if (by == nullptr) return std::nullopt;
    return in_unit_of(*by, value->si * by->nominal.value());
  }
  if (!from.below.empty()) {
    const Dimension* from_size = in.make_up.dimension(from.below);
    if (from_size == nullptr) return std::nullopt;
    return in_unit_of(*from_size, from_size->nominal.value() - value->si);
  }
  return parse_written(value->text, in.kind, {.field = from.column});
}

std::optional<Written> dimension_bound(const BoundFrom& from, const Lookup& in) {
  const Dimension* d = in.make_up.dimension(from.dimension);
  if (d == nullptr) return std::nullopt;
  const std::optional<Length> value = from.part == "lower"   ? d->lower
                                      : from.part == "upper" ? d->upper
                                                             : d->nominal;
  if (!value) return std::nullopt;
  return in_unit_of(*d, value->value());
}

std::optional<Written> fastener_bound(const BoundFrom& from, const Lookup& in) {
  if (!in.make_up.fastener) return std::nullopt;
  return from.fastener == "torque-lower" ? in.make_up.fastener->torque_lower
                                         : in.make_up.fastener->torque_upper;
}

std::optional<Written> sheet_bound(const BoundFrom& from, const Lookup& in) {
  if (!in.make_up.seal.sheet) return std::nullopt;
  const SealSheet& sheet = *in.make_up.seal.sheet;
  if (from.sheet == "pv-limit") return sheet.pv_limit;
  return from.sheet == "force-lower" ? sheet.force_lower : sheet.force_upper;
}

std::optional<Written> plain_bound(const std::optional<BoundFrom>& from, const Lookup& in) {
  if (!from) return std::nullopt;
  if (!from->dimension.empty()) return dimension_bound(*from, in);
  if (!from->fastener.empty()) return fastener_bound(*from, in);
  if (!from->sheet.empty()) return sheet_bound(*from, in);
  return parse_written(from->text, in.kind, {.field = "limit"});
}

bool from_catalog(const std::optional<BoundFrom>& bound) {
  return bound && (bound->frame || !bound->table.empty());
}

Limit limit_of_row(const LimitFrom& from, const std::string& table, const Row& row, const Lookup& in) {
  Limit limit{fmt::format("{}/{}", table, row.id()), from.rank, {}, {}, from.decision, row.source(), {}};
  for (const auto& [spec, bound] :
       {std::pair{&from.lower, &limit.lower}, std::pair{&from.upper, &limit.upper}}) {
    if (!*spec) continue;
    *bound = from_catalog(*spec) ? cell_of(**spec, row, in) : plain_bound(*spec, in);
    const Value* value = from_catalog(*spec) ? row.value((*spec)->column) : nullptr;
    if (value != nullptr) limit.source = *value->source;
  }
  return limit;
}

// Of a bound that does not come from the catalog: as the step data say, or where its dimension came from.
Source own_source(const LimitFrom& from, const Lookup& in) {
  if (from.source) return *from.source;
  const auto& bound = from.upper ? from.upper : from.lower;
  const Dimension* dimension = in.make_up.dimension(bound->dimension);
  if (dimension != nullptr && dimension->source) return *dimension->source;
  return {"this job's make-up, as entered", "", "", Obtained::shop_rule, ""};
}

void add_limits(const LimitFrom& from, const Lookup& in, std::vector<Limit>& out) {
  const auto add = [&](Limit limit) {
    if (limit.lower || limit.upper) out.push_back(std::move(limit));
  };
  const auto& primary = from_catalog(from.upper) ? from.upper : from.lower;
  if (from_catalog(primary)) {
    const std::string table = table_of(*primary, in);
    for (const Row* row : rows_of(*primary, in))
      if (row != nullptr) add(limit_of_row(from, table, *row, in));
    return;
  }
  add({fmt::format("{}/{}", in.check, word_of(from.rank)),
       from.rank,
       plain_bound(from.lower, in),
       plain_bound(from.upper, in),
       from.decision,
       own_source(from, in),
       {}});
}

Check resolved(const CheckText& text, const MakeUp& make_up, const Catalog& catalog,
               const std::set<std::string>& tags) {
  Check check = text.check;
  const Lookup in{make_up, catalog, check.id, check.quantity};
  for (const auto& part : text.chain)
    if (part.condition.holds(tags)) check.chain.push_back(part.part);
  for (const auto& limit : text.limits)
    if (limit.condition.holds(tags)) add_limits(limit, in, check.limits);
  if (text.pair) {
    FoundPairing found = find_pairing(*text.pair, make_up, catalog);
    check.pairing = std::move(found.pairing);
    if (found.rule) check.limits.push_back(std::move(*found.rule));
  }
  if (check.sheet)
    for (auto& limit : sheet_limits(check, make_up.sheets))
      check.limits.push_back(std::move(limit));
  return check;
}

std::optional<Written> override_bound(const std::string& text, const char* field, const Check& check,
                                      const LimitOverride& from) {
  if (text.empty()) return std::nullopt;
  try {
    return parse_written(text, check.quantity, {.field = field});
  } catch (const BadInput& e) {
    throw e.at(from.place + "/" + field);
  }
}

void apply(const LimitOverride& from, Plan& plan) {
  for (auto& step : plan.steps)
    for (auto& check : step.checks) {
      if (check.id != from.check) continue;
      if (says_yes_or_no(check.judged))
        throw BadInput({.field = "check",
                        .place = from.place + "/check",
                        .value = from.check,
                        .expected = "a check with a number to bound; this one says yes or no"});
      Limit limit = from.limit;
      limit.lower = override_bound(from.lower_text, "lower", check, from);
      limit.upper = override_bound(from.upper_text, "upper", check, from);
      if (limit.lower && limit.upper && limit.upper->si < limit.lower->si)
        throw BadInput({.field = "upper",
                        .place = from.place + "/upper",
                        .value = from.upper_text,
                        .expected = "not below \"lower\""});
      check.limits.push_back(limit);
      return;
    }
  throw BadInput({.field = "check",
                  .place = from.place + "/check",
                  .value = from.check,
                  .expected = "a check of this job's plan"});
}

void refuse_repeated_ids(const Plan& plan) {
  std::set<std::string> seen;
  const auto note = [&](const std::string& id) {
    if (!seen.insert(id).second)
      throw BadInput({.field = "id", .place = "steps", .value = id, .expected = "each id once in a plan"});
  };
  for (const auto& step : plan.steps) {
    note("step " + step.id);
    for (const auto& check : step.checks)
      note("check " + check.id);
  }
}

}  // namespace

Plan generate_plan(const MakeUp& make_up, std::span<const StepText> steps, const Catalog& catalog,
                   std::span<const LimitOverride> overrides) {
  const std::set<std::string> tags = tags_of(make_up);
  Plan plan;
  for (const auto& text : steps) {
    if (!text.condition.holds(tags)) continue;
    Step step = text.step;
    for (const auto& check : text.checks)
      if (check.condition.holds(tags)) step.checks.push_back(resolved(check, make_up, catalog, tags));
    plan.steps.push_back(std::move(step));
  }
  refuse_repeated_ids(plan);
  for (const auto& o : overrides)
    apply(o, plan);
  for (auto& step : plan.steps)
    for (auto& check : step.checks)
      order_by_precedence(check.limits);
  return plan;
}

}  // namespace pumpwright::job
