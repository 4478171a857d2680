// Reads the data files into tables and checks them. One class for one file; everything it refuses names file,
// line and row.
#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include <fmt/format.h>
#include <toml++/toml.h>

#include "catalog/catalog.h"
#include "catalog/column_kind.h"
#include "catalog/digest.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr std::string_view steps_folder = "steps/";
constexpr std::size_t file_bytes_max = std::size_t{1} << 20U;
constexpr std::size_t files_max = 1000;
constexpr std::size_t rows_max = 20'000;
constexpr std::size_t text_bytes_max = 2000;
constexpr std::size_t name_bytes_max = 80;
constexpr std::array<std::string_view, 4> row_keys{"source", "source_of", "group", "preferred"};

using SourcePtr = std::shared_ptr<const Source>;
using Columns = std::shared_ptr<const std::vector<Column>>;

// A key of a TOML table with its node, for walking in the order of the file.
struct Entry {
  std::string name;
  const toml::node* node;
};

std::vector<Entry> in_file_order(const toml::table& table) {
  std::vector<Entry> out;
  for (const auto& [key, node] : table)
    out.push_back({std::string(key.str()), &node});
  std::ranges::stable_sort(out, [](const Entry& a, const Entry& b) {
    const auto pa = a.node->source().begin;
    const auto pb = b.node->source().begin;
    return pa.line != pb.line ? pa.line < pb.line : pa.column < pb.column;
  });
  return out;
}

// What stands there, for a message.
std::string shown(const toml::node& node) {
  if (const auto text = node.value_exact<std::string>()) return *text;
  if (const auto number = node.value_exact<double>()) return fmt::format("{}", *number);
  if (const auto whole = node.value_exact<std::int64_t>()) return fmt::format("{}", *whole);
  if (const auto flag = node.value_exact<bool>()) return *flag ? "true" : "false";
  return node.is_table() ? "{ … }" : node.is_array() ? "[ … ]" : "a date or time";
}

bool is_plain_name(std::string_view name) {
  return !name.empty() && name.size() <= name_bytes_max && std::ranges::all_of(name, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  });
}

class TableFile {
 public:
  TableFile(std::string_view name, std::string_view bytes) : file_(name), root_(parsed(bytes)) {}

  Table read() {
    allow_only(root_, {"table", "title", "note", "range", "sources", "columns", "rows"}, "file");
    Table table;
    table.file = file_;
    table.name = plain_name(root_, "table");
    table.title = required_text(root_, "title", "file");
    table.note = optional_text(root_, "note", "file");
    read_sources();
    columns_ = read_columns();
    table.columns = columns_;
    table.range = read_range();
    read_rows(table);
    check_groups(table);
    if (table.range) check_ranges(table);
    return table;
  }

 private:
  toml::table parsed(std::string_view bytes) const {
    if (bytes.size() > file_bytes_max)
      throw BadInput({"file", file_, fmt::format("{} bytes", bytes.size()), "at most 1 MiB"});
    try {
      return toml::parse(bytes, file_);
    } catch (const toml::parse_error& error) {
      throw BadInput({"file", fmt::format("{}:{}", file_, error.source().begin.line), "",
                      fmt::format("TOML 1.0 ({})", error.description())});
    }
  }

  [[noreturn]] void refuse(const toml::node& at, std::string field, std::string value,
                           std::string expected) const {
    throw BadInput({std::move(field), place_of(at), std::move(value), std::move(expected)});
  }

  std::string place_of(const toml::node& at) const {
    const auto line = at.source().begin.line;
    return line == 0 ? file_ : fmt::format("{}:{}", file_, line);
  }

  void allow_only(const toml::table& at, std::initializer_list<std::string_view> known,
                  const std::string& where) const {
    for (const auto& [key, node] : at) {
      if (std::ranges::find(known, key.str()) != known.end()) continue;
      refuse(node, where, std::string(key.str()), fmt::format("only the keys {}", fmt::join(known, ", ")));
    }
  }

  std::string text_of(const toml::node& node, const std::string& field) const {
    const auto text = node.value_exact<std::string>();
    if (!text || text->empty() || text->size() > text_bytes_max)
      refuse(node, field, shown(node), "a text of 1 to 2000 bytes");
    const bool control =
        std::ranges::any_of(*text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
    if (control) refuse(node, field, *text, "a text of one line without control characters");
    return *text;
  }

  std::string optional_text(const toml::table& at, std::string_view key, const std::string& where) const {
    const toml::node* node = at.get(key);
    return node == nullptr ? std::string() : text_of(*node, fmt::format("{}, {}", where, key));
  }

  std::string required_text(const toml::table& at, std::string_view key, const std::string& where) const {
    if (at.get(key) == nullptr) refuse(at, fmt::format("{}, {}", where, key), "", "must be given");
    return optional_text(at, key, where);
  }

  bool flag_or_false(const toml::table& at, std::string_view key, const std::string& where) const {
    const toml::node* node = at.get(key);
    if (node == nullptr) return false;
    const auto flag = node->value_exact<bool>();
    if (!flag) refuse(*node, fmt::format("{}, {}", where, key), shown(*node), "true or false");
    return *flag;
  }

  std::string plain_name(const toml::table& at, std::string_view key) const {
    std::string name = required_text(at, key, "file");
    if (!is_plain_name(name))
      refuse(*at.get(key), std::string(key), name, "small letters, digits, - and _, at most 80");
    return name;
  }

  const toml::table& section(std::string_view key) const {
    const toml::node* node = root_.get(key);
    if (node == nullptr) refuse(root_, std::string(key), "", fmt::format("a table [{}]", key));
    if (!node->is_table()) refuse(*node, std::string(key), shown(*node), fmt::format("a table [{}]", key));
    return *node->as_table();
  }

  const toml::table& as_table(const toml::node& node, const std::string& field) const {
    if (!node.is_table()) refuse(node, field, shown(node), "a table { … }");
    return *node.as_table();
  }

  SourcePtr read_source(const toml::table& at, const std::string& where) const {
    allow_only(at, {"document", "edition", "clause", "obtained", "note"}, where);
    Source source;
    source.document = required_text(at, "document", where);
    source.edition = optional_text(at, "edition", where);
    source.clause = optional_text(at, "clause", where);
    source.note = optional_text(at, "note", where);
    const std::string word = required_text(at, "obtained", where);
    const auto obtained = obtained_from(word);
    if (!obtained)
      refuse(*at.get("obtained"), where + ", obtained", word,
             "read, remembered, common-practice or shop-rule");
    source.obtained = *obtained;
    return std::make_shared<const Source>(std::move(source));
  }

  void read_sources() {
    if (root_.get("sources") == nullptr) return;
    for (const auto& [name, node] : in_file_order(section("sources"))) {
      const std::string where = fmt::format("source \"{}\"", name);
      sources_.emplace_back(name, read_source(as_table(*node, where), where));
    }
  }

  // A source named by its id in [sources], or written in place.
  SourcePtr source_from(const toml::node& node, const std::string& where) {
    if (node.is_table()) return read_source(*node.as_table(), where);
    const std::string id = text_of(node, where);
    const auto found = std::ranges::find(sources_, id, &std::pair<std::string, SourcePtr>::first);
    if (found == sources_.end()) refuse(node, where, id, "the id of a source in [sources]");
    return found->second;
  }

  Column read_column(const std::string& name, const toml::node& node) const {
    const std::string where = fmt::format("column \"{}\"", name);
    if (!is_plain_name(name) || std::ranges::find(row_keys, name) != row_keys.end())
      refuse(node, where, name, "small letters, digits and _; not source, source_of, group or preferred");
    const toml::table& at = as_table(node, where);
    allow_only(at, {"kind", "title", "symbol", "required", "one_of"}, where);
    Column column;
    column.name = name;
    column.title = required_text(at, "title", where);
    column.symbol = optional_text(at, "symbol", where);
    column.required = flag_or_false(at, "required", where);
    const std::string word = required_text(at, "kind", where);
    const auto kind = column_kind_from(word);
    if (!kind) refuse(*at.get("kind"), where + ", kind", word, column_kind_words());
    column.kind = *kind;
    if (const toml::node* words = at.get("one_of")) column.one_of = read_words(*words, column, where);
    return column;
  }

  std::vector<std::string> read_words(const toml::node& node, const Column& column,
                                      const std::string& where) const {
    if (!node.is_array() || node.as_array()->empty() || column.kind != ColumnKind::text)
      refuse(node, where + ", one_of", shown(node), "an array of words, for a text column");
    std::vector<std::string> words;
    for (const auto& word : *node.as_array())
      words.push_back(text_of(word, where + ", one_of"));
    return words;
  }

  Columns read_columns() const {
    std::vector<Column> columns;
    for (const auto& [name, node] : in_file_order(section("columns")))
      columns.push_back(read_column(name, *node));
    if (columns.empty()) refuse(section("columns"), "columns", "", "at least one column");
    return std::make_shared<const std::vector<Column>>(std::move(columns));
  }

  std::string range_column(const toml::table& at, std::string_view key) const {
    const std::string name = required_text(at, key, "range");
    const auto column = std::ranges::find(*columns_, name, &Column::name);
    if (column == columns_->end() || column->kind != ColumnKind::length)
      refuse(*at.get(key), fmt::format("range, {}", key), name, "the name of a length column");
    return name;
  }

  std::optional<SizeRange> read_range() const {
    const toml::node* node = root_.get("range");
    if (node == nullptr) return std::nullopt;
    const toml::table& at = as_table(*node, "range");
    allow_only(at, {"over", "to", "upper"}, "range");
    SizeRange range{range_column(at, "over"), range_column(at, "to"), true};
    const std::string upper = optional_text(at, "upper", "range");
    if (!upper.empty() && upper != "inclusive" && upper != "exclusive")
      refuse(*at.get("upper"), "range, upper", upper, "inclusive or exclusive");
    range.upper_inclusive = upper != "exclusive";
    return range;
  }

  void read_rows(Table& table) {
    if (section("rows").empty()) refuse(section("rows"), "rows", "", "at least one row");
    for (const auto& [id, node] : in_file_order(section("rows"))) {
      const std::string where = fmt::format("row \"{}\"", id);
      if (id.empty() || id.size() > name_bytes_max) refuse(*node, where, id, "an id of 1 to 80 bytes");
      if (table.rows.size() == rows_max) refuse(*node, where, id, "at most 20000 rows");
      table.rows.push_back(read_row(id, as_table(*node, where), where));
      row_nodes_.push_back(node);
    }
  }

  Row read_row(const std::string& id, const toml::table& at, const std::string& where) {
    for (const auto& [key, node] : at) {
      const bool known = std::ranges::find(row_keys, key.str()) != row_keys.end() ||
                         std::ranges::find(*columns_, key.str(), &Column::name) != columns_->end();
      if (!known) refuse(node, where, std::string(key.str()), "a column of this table");
    }
    const toml::node* named = at.get("source");
    if (named == nullptr) refuse(at, where + ", source", "", "a source for every row");
    const SourcePtr source = source_from(*named, where + ", source");
    auto cells = read_cells(at, source, where);
    if (const toml::node* own = at.get("source_of")) read_cell_sources(*own, cells, where);
    return {id,
            optional_text(at, "group", where),
            flag_or_false(at, "preferred", where),
            source,
            columns_,
            std::move(cells)};
  }

  std::vector<std::optional<Value>> read_cells(const toml::table& at, const SourcePtr& source,
                                               const std::string& where) const {
    std::vector<std::optional<Value>> cells;
    cells.reserve(columns_->size());
    for (const auto& column : *columns_) {
      const toml::node* node = at.get(column.name);
      const std::string field = fmt::format("{}, {}", where, column.name);
      if (node == nullptr && column.required) refuse(at, field, "", "must be given in this table");
      cells.push_back(node == nullptr ? std::optional<Value>() : read_cell(*node, column, source, field));
    }
    return cells;
  }

  Value read_cell(const toml::node& node, const Column& column, const SourcePtr& source,
                  const std::string& field) const {
    if (column.kind == ColumnKind::flag) {
      const auto flag = node.value_exact<bool>();
      if (!flag) refuse(node, field, shown(node), "true or false");
      return {shown(node), *flag ? 1.0 : 0.0, nullptr, source};
    }
    if (column.kind == ColumnKind::number) return read_number(node, source, field);
    std::string text = text_of(node, field);
    if (column.kind == ColumnKind::text) {
      if (!column.one_of.empty() && std::ranges::find(column.one_of, text) == column.one_of.end())
        refuse(node, field, text, fmt::format("one of {}", fmt::join(column.one_of, ", ")));
      return {std::move(text), 0, nullptr, source};
    }
    try {
      const auto [si, unit] = read_quantity(text, column.kind, field);
      return {std::move(text), si, unit, source};
    } catch (const BadInput& error) {
      throw error.at(place_of(node));
    }
  }

  Value read_number(const toml::node& node, const SourcePtr& source, const std::string& field) const {
    if (!node.is_number()) refuse(node, field, shown(node), "a number without quotation marks");
    const double number = *node.value<double>();
    if (!std::isfinite(number)) refuse(node, field, shown(node), "a finite number");
    return {shown(node), number, nullptr, source};
  }

  void read_cell_sources(const toml::node& node, std::vector<std::optional<Value>>& cells,
                         const std::string& where) {
    const std::string field = where + ", source_of";
    for (const auto& [key, named] : as_table(node, field)) {
      const auto column = std::ranges::find(*columns_, key.str(), &Column::name);
      const auto index = static_cast<std::size_t>(column - columns_->begin());
      if (column == columns_->end() || !cells[index])
        refuse(named, field, std::string(key.str()), "a column that this row fills");
      cells[index]->source = source_from(named, fmt::format("{}, {}", field, column->name));
    }
  }

  // Rows that compete must say which one is taken; a row that competes with none must not.
  void check_groups(const Table& table) const {
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      const Row& row = table.rows[i];
      const std::string where = fmt::format("row \"{}\", preferred", row.id());
      if (row.group().empty() && row.preferred())
        refuse(*row_nodes_[i], where, "true", "only in a row with a group");
    }
    std::set<std::string, std::less<>> groups;
    for (const auto& row : table.rows)
      if (!row.group().empty()) groups.insert(row.group());
    for (const auto& group : groups) {
      const auto count = std::ranges::count_if(
          table.rows, [&](const Row& r) { return r.group() == group && r.preferred(); });
      if (count != 1)
        refuse(section("rows"), fmt::format("group \"{}\"", group), fmt::format("{} preferred rows", count),
               "exactly one row with preferred = true");
    }
  }

  // Ends in order, and no two rows without a group for the same size.
  void check_ranges(const Table& table) const {
    struct Span {
      double over_m;
      double to_m;
      std::size_t row;
    };
    std::vector<Span> spans;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      const Row& row = table.rows[i];
      const auto over = row.length(table.range->over);
      const auto to = row.length(table.range->to);
      const Span span{over ? over->value() : 0.0, to ? to->value() : HUGE_VAL, i};
      if (!(span.over_m < span.to_m))
        refuse(*row_nodes_[i], fmt::format("row \"{}\", {}", row.id(), table.range->to),
               std::string(row.text(table.range->to)), fmt::format("more than {}", table.range->over));
      if (row.group().empty()) spans.push_back(span);
    }
    std::ranges::sort(spans, {}, &Span::over_m);
    for (std::size_t i = 1; i < spans.size(); ++i) {
      constexpr double slack_m = 1e-9;
      if (spans[i].over_m > spans[i - 1].to_m - slack_m) continue;
      refuse(*row_nodes_[spans[i].row], fmt::format("row \"{}\"", table.rows[spans[i].row].id()), "",
             fmt::format("a range that does not overlap row \"{}\"", table.rows[spans[i - 1].row].id()));
    }
  }

  std::string file_;
  toml::table root_;
  std::vector<std::pair<std::string, SourcePtr>> sources_;
  Columns columns_;
  std::vector<const toml::node*> row_nodes_;
};

void check_names(std::span<const NamedBytes> files) {
  if (files.size() > files_max)
    throw BadInput({"catalog", "", fmt::format("{} files", files.size()), "at most 1000 files"});
  std::set<std::string_view> names;
  for (const auto& file : files) {
    if (file.name.empty()) throw BadInput({"catalog", "", "", "a name for every file"});
    if (!names.insert(file.name).second)
      throw BadInput({"catalog", std::string(file.name), "", "every file name once"});
    if (!file.name.ends_with(".toml"))
      throw BadInput({"catalog", std::string(file.name), "", "data files with names ending in .toml"});
  }
}

void check_tables(const std::vector<Table>& tables) {
  std::size_t rows = 0;
  for (std::size_t i = 0; i < tables.size(); ++i) {
    rows += tables[i].rows.size();
    if (i > 0 && tables[i].name == tables[i - 1].name)
      throw BadInput({"table", tables[i].file, tables[i].name,
                      fmt::format("a name that {} does not use already", tables[i - 1].file)});
  }
  if (rows > rows_max) throw BadInput({"catalog", "", fmt::format("{} rows", rows), "at most 20000 rows"});
}

}  // namespace

Catalog Catalog::load(std::span<const NamedBytes> files) {
  check_names(files);
  Catalog catalog;
  for (const auto& file : files)
    if (!file.name.starts_with(steps_folder))
      catalog.tables_.push_back(TableFile(file.name, file.bytes).read());
  std::ranges::stable_sort(catalog.tables_, {}, &Table::name);
  check_tables(catalog.tables_);
  catalog.digest_ = digest_of(files);
  return catalog;
}

}  // namespace pumpwright
