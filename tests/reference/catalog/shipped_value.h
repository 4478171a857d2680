// Compares a cell of the shipped catalog with the value an outside document prints.
#pragma once

#include <string>
#include <string_view>

#include "tests/support/outside_check.h"

namespace pumpwright::testing {

// A cell and what the document prints for it.
struct ShippedCheck {
  std::string_view table;
  std::string_view row;
  std::string_view column;
  std::string published;  // digits as printed
  std::string unit;       // in, mm, µm …: a length unit of the program
  std::string source;
  Obtained obtained = Obtained::read;
};

// Fails unless the cell exists and agrees in every printed digit.
void expect_shipped(const ShippedCheck& check);

// A length in `unit`.
double length_in(double length_m, std::string_view unit);

// Significant digits printed in `published`.
int digits_of(std::string_view published);

}  // namespace pumpwright::testing
