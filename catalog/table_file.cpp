#include "catalog/table_file.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>
#include <toml++/toml.h>

#include "catalog/column_kind.h"
#include "catalog/table_checks.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr std::size_t file_bytes_max = std::size_t{1} << 20U;
constexpr std::size_t text_bytes_max = 2000;
constexpr std::size_t name_bytes_max = 80;
constexpr std::array<std::string_view, 4> row_keys{"source", "source_of", "group", "preferred"};

using SourcePtr = std::shared_ptr<const Source>;

// A key of a TOML table with its node, for walking in the order of the file.
struct Entry {
  std::string_view name;
  const toml::node* node;
};

std::vector<Entry> in_file_order(const toml::table& table) {
  std::vector<Entry> out;
  out.reserve(table.size());
  for (const auto& [key, node] : table)
    out.push_back({key.str(), &node});
  std::ranges::stable_sort(out, [](const Entry& a, const Entry& b) {
    const auto pa = a.node->source().begin;
    const auto pb = b.node->source().begin;
    return pa.line != pb.line ? pa.line < pb.line : pa.column < pb.column;
  });
  return out;
}

// What stands there, for a message.
std::string shown(const toml::node& node) {
  if (const auto text = node.value_exact<std::string_view>()) return std::string(*text);
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

// Where in the file one is, said only when something is refused: row "7/8 in", width.
struct At {
  std::string_view part;  // "row", "column", "source"; or the whole of it
  std::string_view name = {};
  std::string_view key = {};

  At with(std::string_view inner) const { return {part, name, inner}; }
  std::string text() const {
    std::string out(part);
    if (!name.empty()) out += fmt::format(" \"{}\"", name);
    if (!key.empty()) out += fmt::format(", {}", key);
    return out;
  }
};

class TableFile {
 public:
  explicit TableFile(const NamedBytes& file) : file_(file.name), root_(parsed(file.bytes)) {}

  Table read() {
    const At at{"file"};
    allow_only(root_, {"table", "title", "note", "range", "sources", "columns", "rows"}, at);
    Table table;
    table.file = file_;
    table.name = required_text(root_, "table", at);
    if (!is_plain_name(table.name))
      refuse(*root_.get("table"), at.with("table"), table.name, "small letters, digits, - and _, at most 80");
    table.title = required_text(root_, "title", at);
    table.note = optional_text(root_, "note", at);
    read_sources();
    read_columns();
    table.columns = columns_;
    table.range = read_range();
    read_rows(table);
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

  [[noreturn]] void refuse(const toml::node& node, const At& at, std::string value,
                           std::string expected) const {
    const auto line = node.source().begin.line;
    throw BadInput({at.text(), line == 0 ? file_ : fmt::format("{}:{}", file_, line), std::move(value),
                    std::move(expected)});
  }

  void allow_only(const toml::table& table, std::initializer_list<std::string_view> known,
                  const At& at) const {
    for (const auto& [key, node] : table)
      if (std::ranges::find(known, key.str()) == known.end())
        refuse(node, at, std::string(key.str()), fmt::format("only the keys {}", fmt::join(known, ", ")));
  }

  std::string text_of(const toml::node& node, const At& at) const {
    const auto text = node.value_exact<std::string_view>();
    if (!text || text->empty() || text->size() > text_bytes_max)
      refuse(node, at, shown(node), "a text of 1 to 2000 bytes");
    const bool control =
        std::ranges::any_of(*text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
    if (control) refuse(node, at, shown(node), "a text of one line without control characters");
    return std::string(*text);
  }

  std::string optional_text(const toml::table& table, std::string_view key, const At& at) const {
    const toml::node* node = table.get(key);
    return node == nullptr ? std::string() : text_of(*node, at.with(key));
  }

  std::string required_text(const toml::table& table, std::string_view key, const At& at) const {
    if (table.get(key) == nullptr) refuse(table, at.with(key), "", "must be given");
    return optional_text(table, key, at);
  }

  bool flag_or_false(const toml::table& table, std::string_view key, const At& at) const {
    const toml::node* node = table.get(key);
    if (node == nullptr) return false;
    const auto flag = node->value_exact<bool>();
    if (!flag) refuse(*node, at.with(key), shown(*node), "true or false");
    return *flag;
  }

  const toml::table& as_table(const toml::node& node, const At& at) const {
    if (!node.is_table()) refuse(node, at, shown(node), "a table { … }");
    return *node.as_table();
  }

  const toml::table& section(std::string_view key) const {
    const toml::node* node = root_.get(key);
    if (node == nullptr) refuse(root_, At{key}, "", fmt::format("a table [{}]", key));
    return as_table(*node, At{key});
  }

  SourcePtr read_source(const toml::table& table, const At& at) const {
    allow_only(table, {"document", "edition", "clause", "obtained", "note"}, at);
    Source source;
    source.document = required_text(table, "document", at);
    source.edition = optional_text(table, "edition", at);
    source.clause = optional_text(table, "clause", at);
    source.note = optional_text(table, "note", at);
    const std::string word = required_text(table, "obtained", at);
    const auto obtained = obtained_from(word);
    if (!obtained)
      refuse(*table.get("obtained"), at.with("obtained"), word,
             "read, remembered, common-practice or shop-rule");
    source.obtained = *obtained;
    return std::make_shared<const Source>(std::move(source));
  }

  void read_sources() {
    if (root_.get("sources") == nullptr) return;
    for (const auto& [name, node] : in_file_order(section("sources"))) {
      const At at{"source", name};
      sources_.emplace_back(name, read_source(as_table(*node, at), at));
    }
  }

  // A source named by its id in [sources], or written in place.
  SourcePtr source_from(const toml::node& node, const At& at) const {
    if (node.is_table()) return read_source(*node.as_table(), at);
    const std::string id = text_of(node, at);
    const auto found = std::ranges::find(sources_, id, &std::pair<std::string_view, SourcePtr>::first);
    if (found == sources_.end()) refuse(node, at, id, "the id of a source in [sources]");
    return found->second;
  }

  Column read_column(std::string_view name, const toml::table& table, const At& at) const {
    if (!is_plain_name(name) || std::ranges::find(row_keys, name) != row_keys.end())
      refuse(table, at, std::string(name),
             "small letters, digits and _; not source, source_of, group or preferred");
    allow_only(table, {"kind", "title", "symbol", "required", "one_of", "source"}, at);
    Column column;
    column.name = name;
    column.title = required_text(table, "title", at);
    column.symbol = optional_text(table, "symbol", at);
    column.required = flag_or_false(table, "required", at);
    const std::string word = required_text(table, "kind", at);
    const auto kind = column_kind_from(word);
    if (!kind) refuse(*table.get("kind"), at.with("kind"), word, column_kind_words());
    column.kind = *kind;
    if (const toml::node* words = table.get("one_of"))
      column.one_of = read_words(*words, column, at.with("one_of"));
    return column;
  }

  std::vector<std::string> read_words(const toml::node& node, const Column& column, const At& at) const {
    if (!node.is_array() || node.as_array()->empty() || column.kind != ColumnKind::text)
      refuse(node, at, shown(node), "an array of words, for a text column");
    std::vector<std::string> words;
    for (const auto& word : *node.as_array())
      words.push_back(text_of(word, at));
    return words;
  }

  void read_columns() {
    std::vector<Column> columns;
    for (const auto& [name, node] : in_file_order(section("columns"))) {
      const At at{"column", name};
      const toml::table& table = as_table(*node, at);
      columns.push_back(read_column(name, table, at));
      const toml::node* source = table.get("source");
      column_sources_.push_back(source == nullptr ? nullptr : source_from(*source, at.with("source")));
    }
    if (columns.empty()) refuse(section("columns"), At{"columns"}, "", "at least one column");
    columns_ = std::make_shared<const std::vector<Column>>(std::move(columns));
  }

  std::string range_column(const toml::table& table, std::string_view key) const {
    std::string name = required_text(table, key, At{"range"});
    const auto column = std::ranges::find(*columns_, name, &Column::name);
    if (column == columns_->end() || column->kind != ColumnKind::length)
      refuse(*table.get(key), At{"range", {}, key}, name, "the name of a length column");
    return name;
  }

  std::optional<SizeRange> read_range() const {
    const toml::node* node = root_.get("range");
    if (node == nullptr) return std::nullopt;
    const At at{"range"};
    const toml::table& table = as_table(*node, at);
    allow_only(table, {"over", "to", "upper"}, at);
    SizeRange range{range_column(table, "over"), range_column(table, "to"), true};
    const std::string upper = optional_text(table, "upper", at);
    if (!upper.empty() && upper != "inclusive" && upper != "exclusive")
      refuse(*table.get("upper"), at.with("upper"), upper, "inclusive or exclusive");
    range.upper_inclusive = upper != "exclusive";
    return range;
  }

  void read_rows(Table& table) const {
    const auto entries = in_file_order(section("rows"));
    if (entries.empty()) refuse(section("rows"), At{"rows"}, "", "at least one row");
    table.rows.reserve(entries.size());
    std::vector<std::size_t> lines;
    for (const auto& [id, node] : entries) {
      const At at{"row", id};
      if (id.empty() || id.size() > name_bytes_max)
        refuse(*node, at, std::string(id), "an id of 1 to 80 bytes");
      table.rows.push_back(read_row(id, as_table(*node, at), at));
      lines.push_back(node->source().begin.line);
    }
    check_rows(table, lines);
  }

  Row read_row(std::string_view id, const toml::table& table, const At& at) const {
    for (const auto& [key, node] : table)
      if (std::ranges::find(row_keys, key.str()) == row_keys.end() &&
          std::ranges::find(*columns_, key.str(), &Column::name) == columns_->end())
        refuse(node, at, std::string(key.str()), "a column of this table");
    const toml::node* named = table.get("source");
    if (named == nullptr) refuse(table, at.with("source"), "", "a source for every row");
    const SourcePtr source = source_from(*named, at.with("source"));
    auto cells = read_cells(table, source, at);
    if (const toml::node* own = table.get("source_of")) read_cell_sources(*own, cells, at.with("source_of"));
    return {std::string(id),
            optional_text(table, "group", at),
            flag_or_false(table, "preferred", at),
            source,
            columns_,
            std::move(cells)};
  }

  std::vector<std::optional<Value>> read_cells(const toml::table& table, const SourcePtr& row_source,
                                               const At& at) const {
    std::vector<std::optional<Value>> cells(columns_->size());
    for (std::size_t i = 0; i < columns_->size(); ++i) {
      const Column& column = (*columns_)[i];
      const toml::node* node = table.get(column.name);
      if (node == nullptr && column.required)
        refuse(table, at.with(column.name), "", "must be given in this table");
      if (node == nullptr) continue;
      cells[i] = read_cell(*node, column, at.with(column.name));
      cells[i]->source = column_sources_[i] != nullptr ? column_sources_[i] : row_source;
    }
    return cells;
  }

  // The cell, still without its source.
  Value read_cell(const toml::node& node, const Column& column, const At& at) const {
    if (column.kind == ColumnKind::flag) {
      const auto flag = node.value_exact<bool>();
      if (!flag) refuse(node, at, shown(node), "true or false");
      return {shown(node), *flag ? 1.0 : 0.0, nullptr, nullptr};
    }
    if (column.kind == ColumnKind::number) {
      const double number = node.is_number() ? *node.value<double>() : std::nan("");
      if (!std::isfinite(number)) refuse(node, at, shown(node), "a finite number, without quotation marks");
      return {shown(node), number, nullptr, nullptr};
    }
    std::string text = text_of(node, at);
    if (column.kind == ColumnKind::text) {
      if (!column.one_of.empty() && std::ranges::find(column.one_of, text) == column.one_of.end())
        refuse(node, at, text, fmt::format("one of {}", fmt::join(column.one_of, ", ")));
      return {std::move(text), 0, nullptr, nullptr};
    }
    try {
      const auto [si, unit] = read_quantity(text, column.kind, column.name);
      return {std::move(text), si, unit, nullptr};
    } catch (const BadInput& error) {
      refuse(node, at, error.what_was_wrong().value, error.what_was_wrong().expected);
    }
  }

  void read_cell_sources(const toml::node& node, std::vector<std::optional<Value>>& cells,
                         const At& at) const {
    for (const auto& [key, named] : as_table(node, at)) {
      const auto column = std::ranges::find(*columns_, key.str(), &Column::name);
      const auto index = static_cast<std::size_t>(column - columns_->begin());
      if (column == columns_->end() || !cells[index])
        refuse(named, at, std::string(key.str()), "a column that this row fills");
      cells[index]->source = source_from(named, at);
    }
  }

  std::string file_;
  toml::table root_;
  std::vector<std::pair<std::string_view, SourcePtr>> sources_;  // names live in root_
  std::shared_ptr<const std::vector<Column>> columns_;
  std::vector<SourcePtr> column_sources_;  // one for each column; null where the row's source holds
};

}  // namespace

Table read_table_file(const NamedBytes& file) {
  return TableFile(file).read();
}

}  // namespace pumpwright
