#include "tests/reference/catalog/shipped_value.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "catalog/catalog.h"
#include "catalog/embedded.h"

namespace pumpwright::testing {

double length_in(double length_m, std::string_view unit) {
  return from_si(length_m, unit_with_symbol(unit, Kind::length));
}

int digits_of(std::string_view published) {
  const auto first = std::ranges::find_if(published, [](char c) { return c >= '1' && c <= '9'; });
  const auto count = std::count_if(first, published.end(),
                                   [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; });
  return std::max(1, static_cast<int>(count));
}

void expect_shipped(const ShippedCheck& check) {
  static const Catalog catalog = Catalog::load(embedded_catalog());
  const std::string what = fmt::format("{}: {}, {}", check.table, check.row, check.column);
  const Row* row = catalog.find(check.table, check.row);
  ASSERT_NE(row, nullptr) << what;
  const auto length = row->length(check.column);
  ASSERT_TRUE(length) << what;
  expect_outside({what, check.source, check.obtained, check.published, length_in(length->value(), check.unit),
                  check.unit, digits_of(check.published)});
}

}  // namespace pumpwright::testing
