#include "catalog/table_checks.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

struct Span {
  double over_m;
  double to_m;
  std::size_t row;
};

class RowChecks {
 public:
  RowChecks(const Table& table, std::span<const std::size_t> lines) : table_(table), lines_(lines) {
    assert(lines.size() == table.rows.size());
  }

  void groups() const {
    std::map<std::string_view, std::size_t> preferred;
    for (std::size_t i = 0; i < table_.rows.size(); ++i) {
      const Row& row = table_.rows[i];
      if (row.group().empty() && row.preferred())
        refuse(i, "preferred", "true", "preferred only in a row with a group");
      if (!row.group().empty()) preferred[row.group()] += row.preferred() ? 1U : 0U;
    }
    for (const auto& [group, count] : preferred)
      if (count != 1)
        throw BadInput({fmt::format("group \"{}\"", group), table_.file,
                        fmt::format("{} preferred rows", count), "exactly one row with preferred = true"});
  }

  void ranges() const {
    std::vector<Span> spans;
    for (std::size_t i = 0; i < table_.rows.size(); ++i) {
      const Row& row = table_.rows[i];
      const auto over = row.length(table_.range->over);
      const auto to = row.length(table_.range->to);
      const Span span{over ? over->value() : 0.0, to ? to->value() : HUGE_VAL, i};
      if (!(span.over_m < span.to_m))
        refuse(i, table_.range->to, std::string(row.text(table_.range->to)),
               fmt::format("more than {}", table_.range->over));
      if (row.group().empty()) spans.push_back(span);
    }
    std::ranges::sort(spans, {}, &Span::over_m);
    for (std::size_t i = 1; i < spans.size(); ++i)
      if (spans[i].over_m <= spans[i - 1].to_m - range_slack_m)
        refuse(spans[i].row, table_.range->over,
               std::string(table_.rows[spans[i].row].text(table_.range->over)),
               fmt::format("a range that does not overlap row \"{}\"", table_.rows[spans[i - 1].row].id()));
  }

 private:
  [[noreturn]] void refuse(std::size_t row, std::string_view key, std::string value,
                           std::string expected) const {
    throw BadInput({fmt::format("row \"{}\", {}", table_.rows[row].id(), key),
                    fmt::format("{}:{}", table_.file, lines_[row]), std::move(value), std::move(expected)});
  }

  const Table& table_;
  std::span<const std::size_t> lines_;
};

}  // namespace

void check_rows(const Table& table, std::span<const std::size_t> lines) {
  const RowChecks checks(table, lines);
  checks.groups();
  if (table.range) checks.ranges();
}

}  // namespace pumpwright
