// The catalog: sizes, limits and properties the program ships as data, each row with its source.
//
// A catalog is a set of small TOML files, one table a file (catalog/README.md shows how to add a row). This
// part parses bytes; whoever calls it opens the files. Nothing is taken on trust: a row without a source, an
// unknown key, a repeated id or a quantity that can not be read is refused with the file, line and row named.
// What a value may decide is said by its source (catalog/source.h).
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <boost/units/systems/si/mass_density.hpp>

#include "catalog/source.h"
#include "engine/quantity/quantity.h"
#include "engine/quantity/unit.h"

namespace pumpwright {

// A file as the caller read it. The name is relative and uses '/' ("keys_inch.toml", "steps/receive.toml").
struct NamedBytes {
  std::string_view name;
  std::string_view bytes;
};

// The files whose name starts with `prefix`, in the order given. Files under "steps/" hold step texts in a
// schema of their own: the catalog counts them in its digest and leaves their reading to the part that owns
// them.
std::vector<NamedBytes> files_under(std::span<const NamedBytes> files, std::string_view prefix);

// What a column holds. A quantity is written in the data as a hand writes it, with its unit: "7/8 in", "0.05
// mm".
enum class ColumnKind {
  text,
  flag,           // true or false
  number,         // pure number, finite; for a percentage the column's title says so
  length,         // [m]
  area,           // [m²]
  temperature,    // [K], a point on the scale
  time,           // [s]
  force,          // [N]
  pressure,       // [Pa], also a stress or a modulus of elasticity
  density,        // [kg/m³]
  conductivity,   // [W/(m·K)], of heat
  heat_capacity,  // [J/(kg·K)], of a mass
  expansion,      // [1/K], linear thermal expansion
};

struct Column {
  std::string name;    // key in the data file: "shaft_diameter"
  std::string title;   // for people: "shaft diameter"
  std::string symbol;  // letter of the source document ("U"); may be empty
  ColumnKind kind = ColumnKind::text;
  bool required = false;
  std::vector<std::string> one_of;  // the words allowed in a text column; empty when any text is
};

// One cell as written, with its value in SI and its own source: the one the row names for this cell, else the
// one its column names, else the row's.
struct Value {
  std::string text;            // as it stands in the data file: "7/8 in"
  double si = 0;               // in the SI unit of the column's kind; 1 or 0 for a flag; 0 for a text
  const Unit* unit = nullptr;  // as written; null for a text, a flag and a number
  std::shared_ptr<const Source> source;  // never null
};

// One row. The typed readers give nothing for an empty cell. Asking for a column the table does not have, or
// with the reader of another kind, is a programmer's error (asserted).
class Row {
 public:
  Row(std::string id, std::string group, bool preferred, std::shared_ptr<const Source> source,
      std::shared_ptr<const std::vector<Column>> columns, std::vector<std::optional<Value>> cells);

  const std::string& id() const { return id_; }
  const Source& source() const { return *source_; }

  // Rows of one group give the same thing from sources that disagree; exactly one of them is the preferred
  // one. Empty for a row that stands alone, which is its own preferred row.
  const std::string& group() const { return group_; }
  bool preferred() const { return preferred_; }

  const std::vector<Column>& columns() const { return *columns_; }
  // The cell, or null when the cell is empty or there is no such column.
  const Value* value(std::string_view column) const;

  std::string_view text(std::string_view column) const;  // empty text for an empty cell
  std::optional<bool> flag(std::string_view column) const;
  std::optional<double> number(std::string_view column) const;
  std::optional<Length> length(std::string_view column) const;
  std::optional<Area> area(std::string_view column) const;
  std::optional<Temperature> temperature(std::string_view column) const;
  std::optional<Time> time(std::string_view column) const;
  std::optional<Force> force(std::string_view column) const;
  std::optional<Pressure> pressure(std::string_view column) const;
  std::optional<Density> density(std::string_view column) const;
  std::optional<Conductivity> conductivity(std::string_view column) const;
  std::optional<HeatCapacity> heat_capacity(std::string_view column) const;
  std::optional<Expansion> expansion(std::string_view column) const;

 private:
  std::optional<double> si(std::string_view column, ColumnKind kind) const;

  std::string id_;
  std::string group_;
  bool preferred_;
  std::shared_ptr<const Source> source_;
  std::shared_ptr<const std::vector<Column>> columns_;
  std::vector<std::optional<Value>> cells_;  // one for each column
};

// Ends of ranges are compared with this much slack [m], so that 22.225 mm meets 7/8 in.
constexpr double range_slack_m = 1e-9;

// The two length columns that make a table one of size ranges. An empty `over` cell means from zero, an empty
// `to` cell without upper end.
struct SizeRange {
  std::string over;
  std::string to;
  bool upper_inclusive = true;  // "over a, up to and including b"; otherwise "from a, to under b"
};

struct Table {
  std::string name;   // "keys-inch"
  std::string title;  // for people
  std::string file;   // the file it came from
  std::string note;   // what holds for the whole table; may be empty
  std::shared_ptr<const std::vector<Column>> columns;
  std::optional<SizeRange> range;
  std::vector<Row> rows;  // in the order of the file

  const Row* find(std::string_view id) const;  // null when there is none

  // Rows whose range holds `size`, the preferred one of each group first. Ends are compared with 1 nm of
  // slack, so that 22.225 mm meets 7/8 in. Requires a table with ranges (asserted).
  std::vector<const Row*> rows_for(Length size) const;
  // The first of them, or null when no range holds the size.
  const Row* row_for(Length size) const;
  // Rows of one group, the preferred one first.
  std::vector<const Row*> rows_of_group(std::string_view group) const;
};

class Catalog {
 public:
  // Parses and checks every file but those under "steps/". Throws BadInput naming file, line and row. At most
  // 1 MiB a file, 1000 files and 20 000 rows in all; the total of a shipped catalog is some hundred
  // kilobytes.
  static Catalog load(std::span<const NamedBytes> files);

  const std::vector<Table>& tables() const { return tables_; }         // by name
  const Table* table(std::string_view name) const;                     // null when there is none
  const Row* find(std::string_view table, std::string_view id) const;  // null when there is none

  // BLAKE2b-256 over names and bytes of all files (steps too), in the order of their names; 64 hexadecimal
  // digits. Two catalogs with the same digest judge alike.
  const std::string& digest() const { return digest_; }

 private:
  std::vector<Table> tables_;
  std::string digest_;
};

}  // namespace pumpwright
