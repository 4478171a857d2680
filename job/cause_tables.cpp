#include "job/cause_tables.h"

#include <algorithm>
#include <array>

#include "engine/quantity/bad_input.h"

namespace pumpwright::job {
namespace {

constexpr std::array<std::pair<std::string_view, double>, 4> strengths{
    {{"usually", 0.85}, {"often", 0.6}, {"sometimes", 0.3}, {"seldom", 0.1}}};

const Table& table_of(const Catalog& catalog, std::string_view name) {
  const Table* table = catalog.table(name);
  if (table == nullptr)
    throw BadInput({.field = "catalog",
                    .place = "",
                    .value = "no table " + std::string(name),
                    .expected = "the tables causes, cause-findings and cause-links"});
  return *table;
}

Text text_in(const Row& row, const std::string& column) {
  return {std::string(row.text(column + "_en")), std::string(row.text(column + "_es"))};
}

template <class Entry>
std::optional<std::size_t> place_of(const std::vector<Entry>& entries, std::string_view id) {
  const auto at = std::find_if(entries.begin(), entries.end(), [id](const Entry& e) { return e.id == id; });
  if (at == entries.end()) return std::nullopt;
  return static_cast<std::size_t>(at - entries.begin());
}

[[noreturn]] void refuse_link(const Table& table, const Row& row, const char* column) {
  throw BadInput({.field = column,
                  .place = table.file + ", row \"" + row.id() + "\"",
                  .value = std::string(row.text(column)),
                  .expected = std::string("the id of a row of the table that its column names")});
}

}  // namespace

std::optional<double> strength_of(std::string_view how_often) {
  for (const auto& [word, strength] : strengths)
    if (word == how_often) return strength;
  return std::nullopt;
}

CauseTables::CauseTables(std::vector<CauseEntry> causes, std::vector<FindingEntry> findings,
                         reliability::CauseNetwork network,
                         std::map<std::pair<std::size_t, std::size_t>, Source> sources)
    : causes_(std::move(causes)),
      findings_(std::move(findings)),
      inference_(std::move(network)),
      sources_(std::move(sources)) {}

CauseTables CauseTables::from(const Catalog& catalog) {
  std::vector<CauseEntry> causes;
  std::vector<FindingEntry> findings;
  reliability::CauseNetwork network;
  std::map<std::pair<std::size_t, std::size_t>, Source> sources;
  for (const Row& row : table_of(catalog, "causes").rows) {
    causes.push_back({row.id(), text_in(row, "title"), text_in(row, "change"), text_in(row, "owner")});
    network.prior.push_back(*row.number("prior"));
  }
  for (const Row& row : table_of(catalog, "cause-findings").rows) {
    findings.push_back({row.id(), std::string(row.text("part")), text_in(row, "title"), text_in(row, "look"),
                        std::string(row.text("check"))});
    network.leak.push_back(*row.number("leak"));
  }
  const Table& links = table_of(catalog, "cause-links");
  for (const Row& row : links.rows) {
    const auto cause = place_of(causes, row.text("cause")), finding = place_of(findings, row.text("finding"));
    if (!cause) refuse_link(links, row, "cause");
    if (!finding) refuse_link(links, row, "finding");
    const auto strength = strength_of(row.text("how_often"));
    if (!strength) refuse_link(links, row, "how_often");
    network.links.push_back({*cause, *finding, *strength});
    sources.emplace(std::pair(*cause, *finding), row.source());
  }
  return {std::move(causes), std::move(findings), std::move(network), std::move(sources)};
}

std::optional<std::size_t> CauseTables::finding(std::string_view id) const {
  return place_of(findings_, id);
}

const Source* CauseTables::source_of(std::size_t cause, std::size_t finding) const {
  const auto at = sources_.find({cause, finding});
  return at == sources_.end() ? nullptr : &at->second;
}

}  // namespace pumpwright::job
