#include "cli/catalog_files.h"

#include <CLI/CLI.hpp>

#include "catalog/embedded.h"
#include "cli/command.h"

namespace pumpwright {

CatalogFiles::CatalogFiles(const std::string& directory) {
  if (directory.empty()) {
    const auto embedded = embedded_catalog();
    files_.assign(embedded.begin(), embedded.end());
    return;
  }
  read_ = read_tree(directory, ".toml", "--catalog");
  for (const auto& file : read_)
    files_.push_back({.name = file.name, .bytes = file.bytes});
}

std::vector<NamedBytes> CatalogFiles::step_files() const {
  return files_under(files_, "steps/");
}

Catalog load_catalog(const std::string& directory) {
  const CatalogFiles files(directory);
  return Catalog::load(files.files());
}

void add_catalog_option(CLI::App& command, std::string& directory) {
  auto* option = command.add_option("--catalog", directory,
                                    "Take the catalog from the .toml files of this directory in place of "
                                    "the built-in one");
  is_directory(*option);
}

}  // namespace pumpwright
