// Which program this is: printed by `--version` and frozen into every job, so that a verdict names the
// program that reached it.
#pragma once

#include <string>
#include <string_view>

namespace pumpwright {

// "0.1.0"
std::string_view program_version();

// The linker's build id of the running executable (ELF note NT_GNU_BUILD_ID) as hexadecimal digits: two
// executables with the same id hold the same code. Empty when the executable was linked without one.
std::string program_build_id();

// "pumpwright 0.1.0 (build 3f2a…)": the form frozen into a job.
std::string program_identity();

}  // namespace pumpwright
