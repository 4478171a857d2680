#include "cli/program.h"

#include <cerrno>
#include <exception>
#include <new>
#include <ostream>
#include <sstream>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/command.h"
#include "cli/display_text.h"

namespace pumpwright {
namespace {

// The innermost command the line named.
const CLI::App& named_command(const CLI::App& app) {
  const CLI::App* at = &app;
  while (!at->get_subcommands().empty())
    at = at->get_subcommands().front();
  return *at;
}

std::string full_name(const CLI::App& command) {
  const auto* parent = command.get_parent();
  return (parent == nullptr ? "" : full_name(*parent) + " ") + command.get_name();
}

std::vector<std::string> names_of_commands(const CLI::App& command) {
  std::vector<std::string> names;
  for (const auto* child : command.get_subcommands([](const CLI::App* /*unused*/) { return true; }))
    names.push_back(child->get_name());
  return names;
}

// The word that stands where a command should, if the line has got that far.
std::string word_for_command(const CLI::App& command, std::span<const std::string> arguments) {
  std::size_t depth = 0;
  for (const auto* at = &command; at->get_parent() != nullptr; at = at->get_parent())
    ++depth;
  return arguments.size() > depth ? arguments[depth] : "nothing";
}

std::string without_full_stop(std::string text) {
  while (!text.empty() && (text.back() == '.' || text.back() == '\n'))
    text.pop_back();
  return text;
}

std::string complaint_about(const CLI::ParseError& error, const CLI::App& app,
                            std::span<const std::string> arguments) {
  const auto& command = named_command(app);
  const auto commands = names_of_commands(command);
  if (!commands.empty())
    return fmt::format("command: read \"{}\"; valid: one of {}", word_for_command(command, arguments),
                       fmt::join(commands, ", "));
  return fmt::format("arguments: {}; valid: the arguments that \"{} --help\" shows",
                     without_full_stop(error.what()), full_name(command));
}

int complain(const Streams& streams, const std::string& what, int exit_status) {
  streams.err << "pumpwright: " << one_line(what) << '\n';
  return exit_status;
}

// A broken pipe is a reader who has seen enough; any other failure to write must not pass for success.
int deliver(const Answer& answer, const Streams& streams) {
  errno = 0;
  streams.out << answer.text << std::flush;
  if (streams.out || errno == EPIPE) return answer.exit_status;
  return complain(streams, "standard output: could not be written", exit_program_failed);
}

int run_parsed(CLI::App& app, const Action& chosen, std::span<const std::string> arguments,
               const Streams& streams) {
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());  // the order CLI11 wants
  try {
    app.parse(std::move(reversed));
  } catch (const CLI::Success& e) {  // --help, --version
    std::ostringstream text;
    app.exit(e, text, text);
    return deliver({.text = text.str()}, streams);
  } catch (const CLI::ParseError& e) {
    return complain(streams, complaint_about(e, app, arguments), exit_bad_input);
  }
  return deliver(chosen({.in = streams.in, .colour = streams.colour}), streams);
}

}  // namespace

int run_program(std::span<const std::string> arguments, const Streams& streams) {
  try {
    Action chosen;
    const auto app = make_command_line(chosen);
    return run_parsed(*app, chosen, arguments, streams);
  } catch (const BadInput& e) {
    return complain(streams, e.what(), exit_bad_input);
  } catch (const std::bad_alloc&) {
    return complain(streams, "out of memory", exit_program_failed);
  } catch (const std::exception& e) {
    return complain(streams, fmt::format("a defect of the program: {}", e.what()), exit_program_failed);
  }
}

}  // namespace pumpwright
