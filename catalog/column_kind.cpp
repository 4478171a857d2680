#include "catalog/column_kind.h"

#include <algorithm>
#include <array>
#include <cassert>

#include "engine/quantity/parse.h"

namespace pumpwright {
namespace {

struct KindRow {
  ColumnKind column;
  std::string_view word;
  std::optional<Kind> quantity;  // for kinds the quantity parser reads
};

constexpr std::array kinds{KindRow{ColumnKind::text, "text", {}},
                           KindRow{ColumnKind::flag, "flag", {}},
                           KindRow{ColumnKind::number, "number", {}},
                           KindRow{ColumnKind::length, "length", Kind::length},
                           KindRow{ColumnKind::area, "area", Kind::area},
                           KindRow{ColumnKind::temperature, "temperature", Kind::temperature},
                           KindRow{ColumnKind::time, "time", Kind::time},
                           KindRow{ColumnKind::force, "force", Kind::force},
                           KindRow{ColumnKind::pressure, "pressure", Kind::pressure_difference},
                           KindRow{ColumnKind::density, "density", Kind::density},
                           KindRow{ColumnKind::conductivity, "conductivity", Kind::conductivity},
                           KindRow{ColumnKind::heat_capacity, "heat_capacity", Kind::heat_capacity},
                           KindRow{ColumnKind::expansion, "expansion", Kind::expansion}};

}  // namespace

std::optional<ColumnKind> column_kind_from(std::string_view word) {
  const auto* found = std::ranges::find(kinds, word, &KindRow::word);
  if (found == kinds.end()) return std::nullopt;
  return found->column;
}

std::string column_kind_words() {
  std::string words;
  for (const auto& row : kinds)
    words += (words.empty() ? "" : ", ") + std::string(row.word);
  return words;
}

CellQuantity read_quantity(std::string_view text, ColumnKind kind, const std::string& field) {
  const auto* row = std::ranges::find(kinds, kind, &KindRow::column);
  assert(row != kinds.end() && row->quantity);
  const Written written = parse_written(text, *row->quantity, {.field = field});
  if (kind == ColumnKind::density && written.si <= 0)
    throw BadInput({field, "", std::string(text), "a density above zero"});
  return {written.si, written.unit};
}

}  // namespace pumpwright
