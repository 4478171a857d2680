// The catalog a command works with: the one built into the program, or the data files of a directory.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "cli/input_file.h"

namespace CLI {
class App;
}

namespace pumpwright {

// The data files themselves, kept alive.
class CatalogFiles {
 public:
  // The embedded files for an empty `directory`, else every .toml file below it. Throws BadInput (field
  // "--catalog").
  explicit CatalogFiles(const std::string& directory);
  CatalogFiles(const CatalogFiles&) = delete;
  CatalogFiles& operator=(const CatalogFiles&) = delete;

  std::span<const NamedBytes> files() const { return files_; }
  std::vector<NamedBytes> step_files() const;

 private:
  std::vector<FileOfTree> read_;  // what `files_` points into, when a directory was read
  std::vector<NamedBytes> files_;
};

// The catalog of those files. Throws BadInput.
Catalog load_catalog(const std::string& directory);

// The option `--catalog DIR`.
void add_catalog_option(CLI::App& command, std::string& directory);

}  // namespace pumpwright
