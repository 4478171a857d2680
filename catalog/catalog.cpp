#include "catalog/catalog.h"

#include <algorithm>
#include <cassert>

namespace pumpwright {
namespace {

struct Ends {
  double over_m;
  double to_m;
};

Ends ends_of(const Row& row, const SizeRange& range) {
  const auto over = row.length(range.over);
  const auto to = row.length(range.to);
  return {over ? over->value() : 0.0, to ? to->value() : HUGE_VAL};
}

bool holds(const Row& row, const SizeRange& range, double size_m) {
  const auto [over_m, to_m] = ends_of(row, range);
  if (range.upper_inclusive) return size_m > over_m + range_slack_m && size_m <= to_m + range_slack_m;
  return size_m >= over_m - range_slack_m && size_m < to_m - range_slack_m;
}

// Preferred rows first, otherwise in the order of the file.
void preferred_first(std::vector<const Row*>& rows) {
  std::stable_partition(rows.begin(), rows.end(), [](const Row* r) { return r->preferred(); });
}

}  // namespace

std::vector<NamedBytes> files_under(std::span<const NamedBytes> files, std::string_view prefix) {
  std::vector<NamedBytes> out;
  std::ranges::copy_if(files, std::back_inserter(out),
                       [&](const NamedBytes& f) { return f.name.starts_with(prefix); });
  return out;
}

Row::Row(std::string id, std::string group, bool preferred, std::shared_ptr<const Source> source,
         std::shared_ptr<const std::vector<Column>> columns, std::vector<std::optional<Value>> cells)
    : id_(std::move(id)),
      group_(std::move(group)),
      preferred_(preferred),
      source_(std::move(source)),
      columns_(std::move(columns)),
      cells_(std::move(cells)) {
  assert(source_ != nullptr && columns_ != nullptr && cells_.size() == columns_->size());
}

const Value* Row::value(std::string_view column) const {
  const auto found = std::ranges::find(*columns_, column, &Column::name);
  if (found == columns_->end()) return nullptr;
  const auto& cell = cells_[static_cast<std::size_t>(found - columns_->begin())];
  return cell ? &*cell : nullptr;
}

std::optional<double> Row::si(std::string_view column, [[maybe_unused]] ColumnKind kind) const {
  assert(std::ranges::any_of(*columns_, [&](const Column& c) { return c.name == column && c.kind == kind; }));
  const Value* cell = value(column);
  if (cell == nullptr) return std::nullopt;
  return cell->si;
}

std::string_view Row::text(std::string_view column) const {
  assert(std::ranges::any_of(*columns_, [&](const Column& c) { return c.name == column; }));
  const Value* cell = value(column);
  return cell == nullptr ? std::string_view() : std::string_view(cell->text);
}

std::optional<bool> Row::flag(std::string_view column) const {
  const auto v = si(column, ColumnKind::flag);
  if (!v) return std::nullopt;
  return *v != 0;
}

std::optional<double> Row::number(std::string_view column) const {
  return si(column, ColumnKind::number);
}

namespace {
template <class Q>
std::optional<Q> typed(std::optional<double> si_value) {
  if (!si_value) return std::nullopt;
  return Q::from_value(*si_value);
}
}  // namespace

std::optional<Length> Row::length(std::string_view column) const {
  return typed<Length>(si(column, ColumnKind::length));
}
std::optional<Area> Row::area(std::string_view column) const {
  return typed<Area>(si(column, ColumnKind::area));
}
std::optional<Temperature> Row::temperature(std::string_view column) const {
  const auto v = si(column, ColumnKind::temperature);
  if (!v) return std::nullopt;
  return kelvin(*v);
}
std::optional<Time> Row::time(std::string_view column) const {
  return typed<Time>(si(column, ColumnKind::time));
}
std::optional<Force> Row::force(std::string_view column) const {
  return typed<Force>(si(column, ColumnKind::force));
}
std::optional<Pressure> Row::pressure(std::string_view column) const {
  return typed<Pressure>(si(column, ColumnKind::pressure));
}
std::optional<Density> Row::density(std::string_view column) const {
  return typed<Density>(si(column, ColumnKind::density));
}
std::optional<Conductivity> Row::conductivity(std::string_view column) const {
  return typed<Conductivity>(si(column, ColumnKind::conductivity));
}
std::optional<HeatCapacity> Row::heat_capacity(std::string_view column) const {
  return typed<HeatCapacity>(si(column, ColumnKind::heat_capacity));
}
std::optional<Expansion> Row::expansion(std::string_view column) const {
  return typed<Expansion>(si(column, ColumnKind::expansion));
}

const Row* Table::find(std::string_view id) const {
  const auto found = std::ranges::find(rows, id, &Row::id);
  return found == rows.end() ? nullptr : &*found;
}

std::vector<const Row*> Table::rows_for(Length size) const {
  assert(range);
  std::vector<const Row*> out;
  for (const auto& row : rows)
    if (holds(row, *range, size.value())) out.push_back(&row);
  preferred_first(out);
  return out;
}

const Row* Table::row_for(Length size) const {
  const auto found = rows_for(size);
  return found.empty() ? nullptr : found.front();
}

std::vector<const Row*> Table::rows_of_group(std::string_view group) const {
  std::vector<const Row*> out;
  for (const auto& row : rows)
    if (row.group() == group) out.push_back(&row);
  preferred_first(out);
  return out;
}

const Table* Catalog::table(std::string_view name) const {
  const auto found = std::ranges::lower_bound(tables_, name, {}, &Table::name);
  return found != tables_.end() && found->name == name ? &*found : nullptr;
}

const Row* Catalog::find(std::string_view table_name, std::string_view id) const {
  const Table* t = table(table_name);
  return t == nullptr ? nullptr : t->find(id);
}

}  // namespace pumpwright
