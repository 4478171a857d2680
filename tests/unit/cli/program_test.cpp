#include "cli/program.h"

#include <regex>
#include <sstream>
#include <vector>

#include <gtest/gtest.h>

#include "cli/program_identity.h"

namespace pumpwright {
namespace {

struct Run {
  int status = 0;
  std::string out;
  std::string err;
};

Run run(const std::vector<std::string>& arguments, const std::string& input = "", bool colour = false) {
  std::istringstream in(input);
  std::ostringstream out, err;
  const int status = run_program(arguments, {.in = in, .out = out, .err = err, .colour = colour});
  return {.status = status, .out = out.str(), .err = err.str()};
}

constexpr const char* sweep = "angle_deg,reading\n0,1\n90,0\n180,-1\n270,0\n";
const std::vector<std::string> sweep_arguments{"sweep",   "-", "--unit",       "thou",
                                               "--limit", "7", "--graduation", "0.5"};

TEST(Program, AnswersOnStandardOutputAlone) {
  const auto r = run(sweep_arguments, sweep);
  EXPECT_EQ(r.status, exit_all_pass) << r.err;
  EXPECT_EQ(r.err, "");
  EXPECT_NE(r.out.find("PASS"), std::string::npos);
}

TEST(Program, UsesColourOnlyWhereAskedFor) {
  EXPECT_EQ(run(sweep_arguments, sweep).out.find('\x1b'), std::string::npos);
  EXPECT_NE(run(sweep_arguments, sweep, true).out.find("\x1b[1;34mPASS\x1b[0m"), std::string::npos);
}

TEST(Program, RefusesInOneLineWithStatusTwo) {
  const std::regex one_line("pumpwright: [^\\n]+; valid: [^\\n]+\\n");
  const std::vector<std::vector<std::string>> mistakes{
      {},
      {"no-such-command"},
      {"sweep"},
      {"sweep", "-", "--unit", "thou"},
      {"sweep", "-", "--unit", "thou", "--limit", "7", "--no-such-option"},
      {"sweep", "-", "--unit", "degC", "--limit", "7"},
      {"sweep", "-", "--unit", "thou", "--limit", "20 degC"},
      {"sweep", "-", "--unit", "thou", "--limit", "7", "--axis", "both"},
      {"stack", "/no/such/file.json"},
      {"catalog", "show", "no-such-table", "row"},
      {"completion", "powder"}};
  for (const auto& arguments : mistakes) {
    const auto r = run(arguments, sweep);
    EXPECT_EQ(r.status, exit_bad_input);
    EXPECT_EQ(r.out, "");
    EXPECT_TRUE(std::regex_match(r.err, one_line)) << r.err;
  }
}

TEST(Program, KeepsALineBreakInAnArgumentOutOfItsOneLine) {
  const auto r = run({"sweep", "a\nb.csv", "--unit", "thou", "--limit", "7"});
  EXPECT_EQ(r.status, exit_bad_input);
  EXPECT_EQ(std::count(r.err.begin(), r.err.end(), '\n'), 1);
}

TEST(Program, HelpsEveryCommandWithAnExample) {
  for (const char* command : {"judge", "plan", "sweep", "stack", "fit", "torque", "completion"}) {
    const auto r = run({command, "--help"});
    EXPECT_EQ(r.status, 0);
    EXPECT_NE(r.out.find(std::string("Example:\n  pumpwright ") + command), std::string::npos) << r.out;
  }
  EXPECT_NE(run({"catalog", "show", "--help"}).out.find("Example:\n  pumpwright catalog show"),
            std::string::npos);
  EXPECT_NE(run({"--help"}).out.find("Example:"), std::string::npos);
}

TEST(Program, KnowsItsVersionBuildAndCatalog) {
  const auto r = run({"--version"});
  EXPECT_EQ(r.status, 0);
  EXPECT_TRUE(std::regex_match(r.out, std::regex("pumpwright \\d+\\.\\d+\\.\\d+\nbuild [0-9a-f]{40}\n"
                                                 "catalog [0-9a-f]{64}\n")))
      << r.out;
  EXPECT_NE(program_identity().find(program_build_id()), std::string::npos);
}

TEST(Program, SaysWhenOutputCanNotBeWritten) {
  std::istringstream in(sweep);
  std::ostringstream out, err;
  out.setstate(std::ios::badbit);
  errno = ENOSPC;
  EXPECT_EQ(run_program(sweep_arguments, {.in = in, .out = out, .err = err}), exit_program_failed);
  EXPECT_NE(err.str().find("could not be written"), std::string::npos);
}

}  // namespace
}  // namespace pumpwright
