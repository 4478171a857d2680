// Files as the command line names them: read whole, but never more than is reasonable.
#pragma once

#include <cstddef>
#include <iosfwd>
#include <string>
#include <vector>

#include "engine/quantity/bad_input.h"

namespace pumpwright {

constexpr std::size_t csv_bytes_max = std::size_t{64} * 1024 * 1024;
constexpr std::size_t json_bytes_max = std::size_t{16} * 1024 * 1024;

// "-" stands for standard input, called so in messages.
std::string shown_name(const std::string& path);

// The whole content of `path`, or of `standard_input` for "-". A file larger than `bytes_max` is refused
// before it is read, a stream as soon as it has given more. Throws BadInput (place: the file) when it can not
// be opened, is a directory or is too large.
std::string read_input(const std::string& path, std::size_t bytes_max, std::istream& standard_input);

// Where a file that another one names is looked for: beside it, or as it stands when that came from standard
// input.
std::string beside(const std::string& file, const std::string& named);

// The same error with the file's name in front of its place.
BadInput in_file(const std::string& path, const BadInput& error);

// What `work` gives; a BadInput that leaves it gets the file's name in front of its place.
template <class Work>
auto naming_file(const std::string& path, const Work& work) {
  try {
    return work();
  } catch (const BadInput& error) {
    throw in_file(path, error);
  }
}

// Writes `content` to `path`, replacing what stood there only when all of it has been written. Throws
// BadInput naming `field` when that can not be done.
void write_output(const std::string& path, const std::string& content, const std::string& field);

struct FileOfTree {
  std::string name;  // relative to the directory, with '/'
  std::string bytes;
};

// Every file under `directory` whose name ends in `suffix`, by name. At most 1000 files of 1 MiB each. Throws
// BadInput.
std::vector<FileOfTree> read_tree(const std::string& directory, const std::string& suffix,
                                  const std::string& field);

}  // namespace pumpwright
