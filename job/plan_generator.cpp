#include "job/plan_generator.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"
#include "engine/quantity/format.h"

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
  const Row* row = table.find(from.row);
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

Written scaled(double factor, const Dimension& by) {
  const Unit& unit = *parse_written(by.text, Kind::length, {.field = "dimension"}).unit;
  const double si = factor * by.nominal.value();
  return computed(Kind::length, si, unit, format_significant(AnyQuantity(Kind::length, si), unit, 3));
}

std::optional<Written> cell_of(const BoundFrom& from, const Row& row, const Lookup& in) {
  const auto& columns = row.columns();
  const auto column =
      std::find_if(columns.begin(), columns.end(), [&](const Column& c) { return c.name == from.column; });
  if (column == columns.end())
    refuse_step_data(in.check, row.id() + "." + from.column, "a column of the catalog table");
  const Value* value = row.value(from.column);
  if (value == nullptr) return std::nullopt;
  if (from.times.empty()) return parse_written(value->text, in.kind, {.field = from.column});
  const Dimension* by = in.make_up.dimension(from.times);
  if (by == nullptr || column->kind != ColumnKind::number) return std::nullopt;
  return scaled(value->si, *by);
}

std::optional<Written> dimension_bound(const BoundFrom& from, const Lookup& in) {
  const Dimension* d = in.make_up.dimension(from.dimension);
  if (d == nullptr) return std::nullopt;
  const Unit& unit = *parse_written(d->text, Kind::length, {.field = from.dimension}).unit;
  const std::optional<Length> value = from.part == "lower"   ? d->lower
                                      : from.part == "upper" ? d->upper
                                                             : d->nominal;
  if (!value) return std::nullopt;
  return computed(Kind::length, value->value(), unit, format_significant(AnyQuantity(*value), unit, 6));
}

std::optional<Written> fastener_bound(const BoundFrom& from, const Lookup& in) {
  if (!in.make_up.fastener) return std::nullopt;
  return from.fastener == "torque-lower" ? in.make_up.fastener->torque_lower
                                         : in.make_up.fastener->torque_upper;
}

std::optional<Written> plain_bound(const std::optional<BoundFrom>& from, const Lookup& in) {
  if (!from) return std::nullopt;
  if (!from->dimension.empty()) return dimension_bound(*from, in);
  if (!from->fastener.empty()) return fastener_bound(*from, in);
  return parse_written(from->text, in.kind, {.field = "limit"});
}

bool from_catalog(const std::optional<BoundFrom>& bound) {
  return bound && (bound->frame || !bound->table.empty());
}

Limit limit_of_row(const LimitFrom& from, const std::string& table, const Row& row, const Lookup& in) {
  Limit limit{fmt::format("{}/{}", table, row.id()), from.rank, {}, {}, from.decision, row.source()};
  for (const auto& [spec, bound] :
       {std::pair{&from.lower, &limit.lower}, std::pair{&from.upper, &limit.upper}}) {
    if (!*spec) continue;
    *bound = from_catalog(*spec) ? cell_of(**spec, row, in) : plain_bound(*spec, in);
    const Value* value = from_catalog(*spec) ? row.value((*spec)->column) : nullptr;
    if (value != nullptr) limit.source = *value->source;
  }
  return limit;
}

Source own_source(const LimitFrom& from) {
  return from.source.value_or(Source{"this job's make-up, as entered", "", "", Obtained::shop_rule, ""});
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
  add({fmt::format("{}/{}", in.check, word_of(from.rank)), from.rank, plain_bound(from.lower, in),
       plain_bound(from.upper, in), from.decision, own_source(from)});
}

Check resolved(const CheckText& text, const MakeUp& make_up, const Catalog& catalog,
               const std::set<std::string>& tags) {
  Check check = text.check;
  const Lookup in{make_up, catalog, check.id, check.quantity};
  for (const auto& limit : text.limits)
    if (limit.condition.holds(tags)) add_limits(limit, in, check.limits);
  return check;
}

void apply(const LimitOverride& override_, Plan& plan) {
  for (auto& step : plan.steps)
    for (auto& check : step.checks)
      if (check.id == override_.check) {
        check.limits.push_back(override_.limit);
        return;
      }
  throw BadInput({.field = "check",
                  .place = "/limits",
                  .value = override_.check,
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
