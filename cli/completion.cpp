#include "cli/completion.h"

#include <algorithm>
#include <cassert>
#include <memory>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/command.h"

namespace pumpwright {
namespace {

// One option of a command, as a shell needs to know it.
struct OptionWords {
  std::vector<std::string> flags;    // "--json", "-h"; empty for a positional
  std::vector<std::string> choices;  // words it takes
  bool takes_value = false;
  bool is_file = false;
  bool is_directory = false;
  std::string what;  // first sentence of its help
};

// One command with everything that may follow it.
struct CommandWords {
  std::vector<std::string> path;  // {"catalog", "show"}; empty for the program itself
  std::string what;
  std::vector<OptionWords> options;
  std::vector<std::string> commands;
};

std::string first_clause(const std::string& text) {
  return text.substr(0, std::min(text.find_first_of(";:("), text.find(". ")));
}

OptionWords words_of(const CLI::Option& option) {
  OptionWords words;
  for (const auto& name : option.get_lnames())
    words.flags.push_back("--" + name);
  for (const auto& name : option.get_snames())
    words.flags.push_back("-" + name);
  words.choices = choices_of(option);
  words.takes_value = option.get_items_expected_max() > 0;
  words.is_file = option.get_type_name() == "FILE";
  words.is_directory = option.get_type_name() == "DIR";
  words.what = first_clause(option.get_description());
  return words;
}

void collect(const CLI::App& app, const std::vector<std::string>& path, std::vector<CommandWords>& all) {
  CommandWords command{
      .path = path, .what = first_clause(app.get_description()), .options = {}, .commands = {}};
  for (const auto* option : app.get_options({}))
    command.options.push_back(words_of(*option));
  const auto children = app.get_subcommands([](const CLI::App* /*unused*/) { return true; });
  for (const auto* child : children)
    command.commands.push_back(child->get_name());
  all.push_back(std::move(command));
  for (const auto* child : children) {
    auto longer = path;
    longer.push_back(child->get_name());
    collect(*child, longer, all);
  }
}

std::string joined(const std::vector<std::string>& words, std::string_view between = " ") {
  return fmt::format("{}", fmt::join(words, between));
}

// "/judge", "/catalog/show"; empty for the program itself: how a command is told apart in the scripts.
std::string name_of(const CommandWords& command) {
  return command.path.empty() ? "" : "/" + joined(command.path, "/");
}

std::string names_of_commands(const std::vector<CommandWords>& all) {
  std::vector<std::string> names;
  for (const auto& command : all)
    if (!command.path.empty()) names.push_back(name_of(command));
  return joined(names, "|");
}

bool takes_file(const CommandWords& command) {
  for (const auto& option : command.options)
    if (option.flags.empty() && option.is_file) return true;
  return false;
}

// What a positional may be, where that is a few words.
std::vector<std::string> words_of_positionals(const CommandWords& command) {
  std::vector<std::string> words;
  for (const auto& option : command.options)
    if (option.flags.empty()) words.insert(words.end(), option.choices.begin(), option.choices.end());
  return words;
}

// Text between single quotes of a shell.
std::string quotable(std::string text) {
  for (char& c : text)
    if (c == '\'' || c == '[' || c == ']' || c == ':' || c == '"') c = ' ';
  return text;
}

std::string bash_values(const OptionWords& option) {
  if (option.is_directory) return R"(COMPREPLY=($(compgen -d -- "$current")))";
  if (option.is_file) return R"(COMPREPLY=($(compgen -f -- "$current")))";
  return fmt::format(R"(COMPREPLY=($(compgen -W '{}' -- "$current")))", joined(option.choices));
}

std::string bash_script(const std::vector<CommandWords>& all) {
  std::string values, words;
  for (const auto& command : all) {
    std::vector<std::string> next = command.commands;
    const auto positional = words_of_positionals(command);
    next.insert(next.end(), positional.begin(), positional.end());
    for (const auto& option : command.options) {
      next.insert(next.end(), option.flags.begin(), option.flags.end());
      if (!option.takes_value) continue;
      for (const auto& flag : option.flags)
        values += fmt::format("    '{} {}') {}; return ;;\n", name_of(command), flag, bash_values(option));
    }
    words += fmt::format("    '{}') words='{}' files={} ;;\n", name_of(command), joined(next),
                         takes_file(command) ? 1 : 0);
  }
  return fmt::format(R"(# bash completion for pumpwright: source it, or keep it where bash-completion looks
_pumpwright() {{
  local current="${{COMP_WORDS[COMP_CWORD]}}" previous="${{COMP_WORDS[COMP_CWORD-1]}}"
  local command='' words='' files=0 word
  for word in "${{COMP_WORDS[@]:1:COMP_CWORD-1}}"; do
    case "$command/$word" in
    {}) command="$command/$word" ;;
    esac
  done
  case "$command $previous" in
{}  esac
  case "$command" in
{}  esac
  COMPREPLY=($(compgen -W "$words" -- "$current"))
  if [[ $files == 1 && $current != -* ]]; then COMPREPLY+=($(compgen -f -- "$current")); fi
}}
complete -o filenames -F _pumpwright pumpwright
)",
                     names_of_commands(all), values, words);
}

std::string zsh_value(const OptionWords& option) {
  if (!option.takes_value) return "";
  if (option.is_directory) return ":directory:_files -/";
  if (option.is_file) return ":file:_files";
  if (!option.choices.empty()) return fmt::format(":word:({})", joined(option.choices));
  return ":value: ";
}

std::string zsh_script(const std::vector<CommandWords>& all) {
  std::string cases;
  for (const auto& command : all) {
    std::string arguments;
    for (const auto& option : command.options)
      for (const auto& flag : option.flags)
        arguments += fmt::format(" \\\n        '*{}[{}]{}'", flag, quotable(option.what), zsh_value(option));
    if (!command.commands.empty())
      arguments += fmt::format(" \\\n        '*:command:({})'", joined(command.commands));
    const auto positional = words_of_positionals(command);
    if (!positional.empty()) arguments += fmt::format(" \\\n        '*:word:({})'", joined(positional));
    if (takes_file(command)) arguments += " \\\n        '*:file:_files'";
    cases += fmt::format("    '{}')\n      _arguments{} ;;\n", name_of(command), arguments);
  }
  return fmt::format(R"(#compdef pumpwright
# zsh completion for pumpwright: keep it as _pumpwright in a directory of $fpath
_pumpwright() {{
  local command='' word
  for word in "${{(@)words[2,CURRENT-1]}}"; do
    case "$command/$word" in
    {}) command="$command/$word" ;;
    esac
  done
  case "$command" in
{}  esac
}}
if [[ ${{funcstack[1]}} == _pumpwright ]]; then _pumpwright "$@"; else compdef _pumpwright pumpwright; fi
)",
                     names_of_commands(all), cases);
}

std::string fish_condition(const CommandWords& command) {
  return fmt::format("test (__pumpwright_command) = '{}'", name_of(command));
}

std::string fish_value(const OptionWords& option) {
  if (!option.takes_value) return "";
  if (option.is_directory) return " -x -a '(__fish_complete_directories)'";
  if (option.is_file) return " -r -F";
  return option.choices.empty() ? " -x" : fmt::format(" -x -a '{}'", joined(option.choices));
}

std::string fish_line(const CommandWords& command, const OptionWords& option) {
  std::string line = fmt::format("complete -c pumpwright -n \"{}\"", fish_condition(command));
  for (const auto& flag : option.flags)
    line += flag.starts_with("--") ? " -l " + flag.substr(2) : " -s " + flag.substr(1);
  return line + fish_value(option) + fmt::format(" -d '{}'\n", quotable(option.what));
}

std::string fish_script(const std::vector<CommandWords>& all) {
  std::string lines;
  for (const auto& command : all) {
    for (const auto& name : command.commands)
      lines += fmt::format("complete -c pumpwright -n \"{}\" -a {}\n", fish_condition(command), name);
    for (const auto& word : words_of_positionals(command))
      lines += fmt::format("complete -c pumpwright -n \"{}\" -a {}\n", fish_condition(command), word);
    if (takes_file(command))
      lines += fmt::format("complete -c pumpwright -n \"{}\" -F\n", fish_condition(command));
    for (const auto& option : command.options)
      if (!option.flags.empty()) lines += fish_line(command, option);
  }
  return fmt::format(R"(# fish completion for pumpwright: keep it as completions/pumpwright.fish
function __pumpwright_command
  set -l command ''
  for word in (commandline -opc)[2..-1]
    switch "$command/$word"
      case {}
        set command "$command/$word"
    end
  end
  echo "$command"
end
complete -c pumpwright -f
{})",
                     [&] {
                       std::string names = names_of_commands(all);
                       std::replace(names.begin(), names.end(), '|', ' ');
                       return names;
                     }(),
                     lines);
}

}  // namespace

std::string completion_script(const CLI::App& program, const std::string& shell) {
  std::vector<CommandWords> all;
  collect(program, {}, all);
  if (shell == "bash") return bash_script(all);
  if (shell == "zsh") return zsh_script(all);
  assert(shell == "fish");
  return fish_script(all);
}

void add_completion_command(CLI::App& app, Action& chosen) {
  auto shell = std::make_shared<std::string>();
  auto* completion =
      add_command(app, "completion", "Print the completion script of a shell",
                  "pumpwright completion bash > ~/.local/share/bash-completion/completions/pumpwright");
  add_choice(*completion, "SHELL", *shell, {"bash", "zsh", "fish"}, "The shell it is for")->required();
  completion->callback([shell, &app, &chosen] {
    chosen = [shell, &app](const Surroundings& /*unused*/) {
      return Answer{.text = completion_script(app, *shell)};
    };
  });
}

}  // namespace pumpwright
