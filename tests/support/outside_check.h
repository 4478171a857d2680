// Checks against values from outside the project, kept so that docs/checks.md can be generated from the
// tests.
#pragma once

#include <string>

namespace pumpwright::testing {

// How the outside value came to us; printed in docs/checks.md.
enum class Obtained {
  read,             // read in the source, or in a public restatement of it
  remembered,       // from memory, not compared with the publication
  live,             // computed during the test by another, independent program
  closed_form,      // exact value from a mathematical identity
  common_practice,  // a habit of the trade with no published source
};

struct OutsideCheck {
  std::string what;    // what is compared, e.g. "Norris: slope"
  std::string source;  // document, edition, clause or table; for live references the program and its version
  Obtained obtained = Obtained::read;
  std::string published;    // the outside value as printed, all its digits, in the unit of `unit`
  double computed = 0;      // ours, in the same unit
  std::string unit;         // "" for a pure number
  int digits_required = 0;  // the test fails below this many agreeing significant digits
};

// Significant digits to which `computed` agrees with `published`, at most the digits `published` has:
// floor(-log10(|computed - published| / |published|)), with half a unit of the published last digit counting
// as full agreement. For a published zero: digits of |computed| below one.
int digits_agreed(const std::string& published, double computed);

// Fails the running test when fewer than `digits_required` digits agree. When the environment variable
// PUMPWRIGHT_CHECKS_OUT names a directory, also writes the row there for tools/checks_table.py.
void expect_outside(const OutsideCheck& check);

}  // namespace pumpwright::testing
