// The `pumpwright` command.
#include <csignal>
#include <cstdlib>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

#include <unistd.h>

#include "cli/program.h"

namespace {

// Colour on a terminal only, and never where NO_COLOR is set or the terminal is a plain one.
bool wants_colour() {
  const char* no_colour = std::getenv("NO_COLOR");
  const char* terminal = std::getenv("TERM");
  const bool plain = terminal == nullptr || std::string_view(terminal) == "dumb";
  return ::isatty(STDOUT_FILENO) == 1 && (no_colour == nullptr || *no_colour == '\0') && !plain;
}

}  // namespace

int main(int argc, char** argv) {
  std::signal(SIGPIPE, SIG_IGN);  // a closed pipe is seen when writing
  std::ios::sync_with_stdio(false);
  const std::vector<std::string> arguments(argc > 0 ? argv + 1 : argv, argv + argc);
  return pumpwright::run_program(
      arguments, {.in = std::cin, .out = std::cout, .err = std::cerr, .colour = wants_colour()});
}
