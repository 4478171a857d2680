// The `pumpwright` command as a function: arguments and standard input in, text and an exit status out.
// main() only hands over the streams of the process, so that tests run the very same program.
//
// Exit status: 0 all is well (every verdict is pass), 1 something failed, is unproven or was not taken,
// 2 something handed in can not be used (one line on `err`: place, field, what was read, what would be
// valid), 3 the program itself could not go on (out of memory, output that can not be written, a defect).
#pragma once

#include <iosfwd>
#include <span>
#include <string>

namespace pumpwright {

constexpr int exit_all_pass = 0;
constexpr int exit_not_all_pass = 1;
constexpr int exit_bad_input = 2;
constexpr int exit_program_failed = 3;

struct Streams {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  bool colour = false;  // verdict words in colour
};

// `arguments` without the program's name. Throws nothing.
int run_program(std::span<const std::string> arguments, const Streams& streams);

}  // namespace pumpwright
