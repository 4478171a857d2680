// What the commands of the program have in common: how one is declared, what it is given and what it answers.
#pragma once

#include <functional>
#include <iosfwd>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "engine/quantity/bad_input.h"

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace pumpwright {

// What a command may use besides its arguments.
struct Surroundings {
  std::istream& in;     // standard input, for "-"
  bool colour = false;  // verdict words in colour
};

struct Answer {
  std::string text;  // for standard output
  int exit_status = 0;
};

using Action = std::function<Answer(const Surroundings&)>;

// Every command declares its arguments below `app` and, when the command line names it, sets `chosen`.
void add_judge_command(CLI::App& app, Action& chosen);
void add_plan_command(CLI::App& app, Action& chosen);
void add_sweep_command(CLI::App& app, Action& chosen);
void add_stack_command(CLI::App& app, Action& chosen);
void add_fit_command(CLI::App& app, Action& chosen);
void add_torque_command(CLI::App& app, Action& chosen);
void add_seal_command(CLI::App& app, Action& chosen);
void add_true_command(CLI::App& app, Action& chosen);
void add_cause_command(CLI::App& app, Action& chosen);
void add_rotor_command(CLI::App& app, Action& chosen);
void add_fluid_command(CLI::App& app, Action& chosen);
void add_performance_command(CLI::App& app, Action& chosen);
void add_trim_command(CLI::App& app, Action& chosen);
void add_returns_command(CLI::App& app, Action& chosen);
void add_balance_command(CLI::App& app, Action& chosen);
void add_align_command(CLI::App& app, Action& chosen);
void add_pressure_hold_command(CLI::App& app, Action& chosen);
void add_system_command(CLI::App& app, Action& chosen);
void add_vibration_command(CLI::App& app, Action& chosen);
void add_catalog_command(CLI::App& app, Action& chosen);
void add_serve_command(CLI::App& app, Action& chosen);
void add_verify_command(CLI::App& app, Action& chosen);
void add_shop_commands(CLI::App& app, Action& chosen);  // backup, restore, rebuild, export, lives, public-key
void add_import_command(CLI::App& app, Action& chosen);
void add_demo_command(CLI::App& app, Action& chosen);
void add_completion_command(CLI::App& app, Action& chosen);

// The whole program with all its commands. `chosen` must live as long as the result.
std::unique_ptr<CLI::App> make_command_line(Action& chosen);

// A command with its one-line purpose and one example, which stands at the end of its help.
CLI::App* add_command(CLI::App& app, const std::string& name, const std::string& purpose,
                      const std::string& example);

// An option whose value is one of a few words; BadInput for any other. The first word is the default when the
// variable holds it.
CLI::Option* add_choice(CLI::App& command, const std::string& flag, std::string& value,
                        const std::vector<std::string>& words, const std::string& what);

// The words of an option made by add_choice; empty for any other option.
std::vector<std::string> choices_of(const CLI::Option& option);

// `option` names a file or a directory (used by the shell completion too).
void is_file(CLI::Option& option);
void is_directory(CLI::Option& option);

// BadInput about one argument.
BadInput bad_argument(const std::string& flag, const std::string& value, const std::string& expected);

// Longest length any argument or file may give [m]: far beyond any pump, and far below where sums overflow.
constexpr double length_max_m = 1000;

// A whole number written as decimal digits, from `least` to `most`.
std::uint64_t whole_number(const std::string& flag, const std::string& text, std::uint64_t least,
                           std::uint64_t most);

}  // namespace pumpwright
