// Shell completion, written from the program's own commands and options so that the two can not drift apart.
#pragma once

#include <string>

namespace CLI {
class App;
}

namespace pumpwright {

// The script for bash, zsh or fish (asserted): commands, options, the words an option takes, files and
// directories.
std::string completion_script(const CLI::App& program, const std::string& shell);

}  // namespace pumpwright
