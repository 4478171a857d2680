#include "cli/command.h"

#include <algorithm>
#include <charconv>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/catalog_files.h"
#include "cli/display_text.h"
#include "cli/program_identity.h"

namespace pumpwright {
namespace {

constexpr std::string_view file_word = "FILE";
constexpr std::string_view directory_word = "DIR";

const char* const exit_status_help =
    "Exit status: 0 all pass; 1 something failed, is unproven or was not taken;\n"
    "2 something handed in can not be used; 3 the program could not go on.\n\n"
    "Example:\n  pumpwright sweep impeller.csv --unit thou --limit \"7 thou\" --graduation \"0.5 thou\"\n";

// Help whose descriptions stay within a terminal's width.
class WrappedHelp : public CLI::Formatter {
 public:
  std::string make_option_desc(const CLI::Option* option) const override {
    std::string text = wrapped(CLI::Formatter::make_option_desc(option), text_width - get_column_width());
    if (text.ends_with('\n')) text.pop_back();
    return text;
  }

 private:
  static constexpr std::size_t text_width = 100;
};

std::string version_text() {
  const auto catalog = load_catalog("");
  return fmt::format("pumpwright {}\nbuild {}\ncatalog {}", program_version(), program_build_id(),
                     catalog.digest());
}

}  // namespace

std::unique_ptr<CLI::App> make_command_line(Action& chosen) {
  auto app = std::make_unique<CLI::App>(
      "Plans, measures and judges the build of a close-coupled centrifugal pump.", "pumpwright");
  app->formatter(std::make_shared<WrappedHelp>());
  app->get_formatter()->column_width(34);
  app->require_subcommand(1);
  app->set_help_flag("-h,--help", "Print this help and exit");
  app->set_version_flag("--version", version_text, "Print version, build and catalog digest and exit");
  add_judge_command(*app, chosen);
  add_plan_command(*app, chosen);
  add_sweep_command(*app, chosen);
  add_stack_command(*app, chosen);
  add_fit_command(*app, chosen);
  add_seal_command(*app, chosen);
  add_true_command(*app, chosen);
  add_cause_command(*app, chosen);
  add_rotor_command(*app, chosen);
  add_torque_command(*app, chosen);
  add_fluid_command(*app, chosen);
  add_performance_command(*app, chosen);
  add_trim_command(*app, chosen);
  add_returns_command(*app, chosen);
  add_balance_command(*app, chosen);
  add_align_command(*app, chosen);
  add_pressure_hold_command(*app, chosen);
  add_system_command(*app, chosen);
  add_vibration_command(*app, chosen);
  add_catalog_command(*app, chosen);
  add_serve_command(*app, chosen);
  add_verify_command(*app, chosen);
  add_shop_commands(*app, chosen);
  add_import_command(*app, chosen);
  add_demo_command(*app, chosen);
  add_completion_command(*app, chosen);
  app->footer(exit_status_help);
  return app;
}

CLI::App* add_command(CLI::App& app, const std::string& name, const std::string& purpose,
                      const std::string& example) {
  auto* command = app.add_subcommand(name, purpose);
  command->footer("Example:\n  " + example + "\n");
  return command;
}

CLI::Option* add_choice(CLI::App& command, const std::string& flag, std::string& value,
                        const std::vector<std::string>& words, const std::string& what) {
  auto* option = command.add_option(flag, value, what);
  option->type_name(fmt::format("{}", fmt::join(words, "|")));
  option->check(
      [flag, words](const std::string& text) {
        if (std::find(words.begin(), words.end(), text) == words.end())
          throw bad_argument(flag, text, fmt::format("one of {}", fmt::join(words, ", ")));
        return std::string();
      },
      "");
  return option;
}

std::vector<std::string> choices_of(const CLI::Option& option) {
  const std::string words = option.get_type_name();
  if (words.find('|') == std::string::npos) return {};
  return CLI::detail::split(words, '|');
}

void is_file(CLI::Option& option) {
  option.type_name(std::string(file_word));
}

void is_directory(CLI::Option& option) {
  option.type_name(std::string(directory_word));
}

BadInput bad_argument(const std::string& flag, const std::string& value, const std::string& expected) {
  return BadInput({.field = flag, .place = "", .value = value, .expected = expected});
}

std::uint64_t whole_number(const std::string& flag, const std::string& text, std::uint64_t least,
                           std::uint64_t most) {
  std::uint64_t number = 0;
  const char* end = text.data() + text.size();
  const auto [stopped, failure] = std::from_chars(text.data(), end, number);
  if (failure != std::errc() || stopped != end || text.empty() || number < least || number > most)
    throw bad_argument(flag, text, fmt::format("a whole number from {} to {}", least, most));
  return number;
}

}  // namespace pumpwright
