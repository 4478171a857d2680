// How the cells of a data file are read: the words for column kinds, and text to SI. Used by the loader only.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "catalog/catalog.h"

namespace pumpwright {

// The kind a data file names: "text", "length", "pressure" …; nothing for any other word.
std::optional<ColumnKind> column_kind_from(std::string_view word);

// All words, for messages: "text, flag, number, …".
std::string column_kind_words();

struct CellQuantity {
  double si = 0;
  const Unit* unit = nullptr;  // null for a density
};

// Reads a quantity with its unit. `kind` is not text, flag or number (asserted). Throws BadInput without a
// place.
CellQuantity read_quantity(std::string_view text, ColumnKind kind, const std::string& field);

}  // namespace pumpwright
