#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/catalog_files.h"
#include "cli/catalog_lookup.h"
#include "cli/command.h"
#include "cli/display_text.h"
#include "cli/json_values.h"

namespace pumpwright {
namespace {

struct CatalogArguments {
  std::string table;
  std::string row;
  std::string catalog;
  bool json = false;
};

constexpr std::size_t text_width = 100;

OrderedJson source_json(const Source& source) {
  return {{"document", source.document},
          {"edition", source.edition},
          {"clause", source.clause},
          {"obtained", word_of(source.obtained)},
          {"note", source.note}};
}

// A text as text, a flag as true or false, a number or a quantity as written and in SI.
OrderedJson value_json(const Column& column, const Value& value) {
  OrderedJson json = {{"column", column.name}, {"title", column.title}, {"text", value.text}};
  if (column.kind == ColumnKind::flag)
    json["value"] = value.si != 0;
  else if (column.kind == ColumnKind::text)
    json["value"] = value.text;
  else
    json["value_si"] = value.si;
  json["source"] = source_json(*value.source);
  return json;
}

OrderedJson row_json(const Row& row) {
  auto values = OrderedJson::array();
  for (const auto& column : row.columns())
    if (const auto* value = row.value(column.name)) values.push_back(value_json(column, *value));
  return {{"row", row.id()},
          {"group", row.group().empty() ? OrderedJson(nullptr) : OrderedJson(row.group())},
          {"preferred", row.preferred()},
          {"source", source_json(row.source())},
          {"values", values}};
}

OrderedJson table_json(const Table& table) {
  return {{"table", table.name}, {"title", table.title}, {"note", table.note}, {"file", table.file}};
}

std::string list_of_tables(const Catalog& catalog) {
  TextTable lines({Align::left, Align::right, Align::left});
  lines.add({"table", "rows", "what"});
  for (const auto& table : catalog.tables())
    lines.add({table.name, fmt::format("{}", table.rows.size()), table.title});
  return lines.text();
}

std::string tables_json(const Catalog& catalog) {
  auto list = OrderedJson::array();
  for (const auto& table : catalog.tables()) {
    auto json = table_json(table);
    json["rows"] = table.rows.size();
    list.push_back(json);
  }
  return json_text({{"digest", catalog.digest()}, {"tables", list}});
}

std::string value_text(const Row& row, const Column& column) {
  const auto* value = row.value(column.name);
  if (value == nullptr) return "-";
  return one_line(value->text);
}

std::string heading(const Table& table) {
  std::string text = fmt::format("{}: {}\n", table.name, table.title);
  if (!table.note.empty()) text += wrapped(table.note, text_width);
  return text + "\n";
}

std::string list_of_rows(const Table& table) {
  std::vector<Align> aligns(table.columns->size() + 2, Align::left);
  TextTable lines(aligns);
  std::vector<std::string> head{"row"};
  for (const auto& column : *table.columns)
    head.push_back(column.title);
  head.emplace_back("known");
  lines.add(head);
  for (const auto& row : table.rows) {
    std::vector<std::string> cells{row.id() + (row.preferred() || row.group().empty() ? "" : " *")};
    for (const auto& column : *table.columns)
      cells.push_back(value_text(row, column));
    cells.emplace_back(word_of(row.source().obtained));
    lines.add(cells);
  }
  return heading(table) + lines.text() +
         fmt::format(
             "\n* another source gives it otherwise and is preferred. Sources: pumpwright catalog show {} "
             "ROW\n",
             table.name);
}

std::string rows_json(const Table& table) {
  auto json = table_json(table);
  json["rows"] = OrderedJson::array();
  for (const auto& row : table.rows)
    json["rows"].push_back(row_json(row));
  return json_text(json);
}

std::string source_text(const Source& source) {
  return citation(source) + (source.note.empty() ? "" : "; " + source.note);
}

std::string row_text(const Table& table, const Row& row) {
  TextTable lines({Align::left, Align::left, Align::left, Align::left});
  for (const auto& column : row.columns()) {
    const auto* value = row.value(column.name);
    if (value == nullptr) continue;
    const bool own_source = *value->source != row.source();
    lines.add(
        {column.title, column.symbol, one_line(value->text), own_source ? source_text(*value->source) : ""});
  }
  std::string text = heading(table) + "row: " + row.id() + "\n" + lines.text() +
                     "source: " + source_text(row.source()) + "\n";
  if (row.group().empty()) return text;
  for (const auto* other : table.rows_of_group(row.group()))
    if (other != &row)
      text += fmt::format("\nanother source{}: row {} ({})\n", other->preferred() ? ", preferred" : "",
                          other->id(), citation(other->source()));
  return text;
}

Answer run_list(const CatalogArguments& a) {
  const auto catalog = load_catalog(a.catalog);
  if (a.table.empty()) return {.text = a.json ? tables_json(catalog) : list_of_tables(catalog)};
  const auto& table = table_named(catalog, a.table, "TABLE");
  return {.text = a.json ? rows_json(table) : list_of_rows(table)};
}

Answer run_show(const CatalogArguments& a) {
  const auto catalog = load_catalog(a.catalog);
  const auto& table = table_named(catalog, a.table, "TABLE");
  const auto& row = row_named(table, a.row, "ROW");
  if (!a.json) return {.text = row_text(table, row)};
  auto json = table_json(table);
  json.update(row_json(row));
  return {.text = json_text(json)};
}

}  // namespace

void add_catalog_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<CatalogArguments>();
  auto* catalog =
      add_command(app, "catalog", "Show the sizes, limits and properties in use, with their sources",
                  "pumpwright catalog show frames-nema 184JM");
  catalog->require_subcommand(1);
  auto* list = add_command(*catalog, "list", "List the tables, or the rows of one",
                           "pumpwright catalog list seal-limits");
  list->add_option("TABLE", a->table, "Name of a table; without it, all tables");
  auto* show = add_command(*catalog, "show", "Show one row with its values and where each came from",
                           "pumpwright catalog show frames-nema 184JM");
  show->add_option("TABLE", a->table, "Name of the table")->required();
  show->add_option("ROW", a->row, "Name of the row")->required();
  for (auto* command : {list, show}) {
    add_catalog_option(*command, a->catalog);
    command->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  }
  list->callback([a, &chosen] { chosen = [a](const Surroundings& /*unused*/) { return run_list(*a); }; });
  show->callback([a, &chosen] { chosen = [a](const Surroundings& /*unused*/) { return run_show(*a); }; });
}

}  // namespace pumpwright
