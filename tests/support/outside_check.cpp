#include "tests/support/outside_check.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace pumpwright::testing {
namespace {

int significant_digits(const std::string& number) {
  const std::string mantissa = number.substr(0, number.find_first_of("eE"));
  int count = 0;
  bool leading = true;
  for (const char c : mantissa) {
    if (std::isdigit(static_cast<unsigned char>(c)) == 0) continue;
    if (leading && c == '0') continue;
    leading = false;
    ++count;
  }
  return count == 0 ? 1 : count;
}

// Value of one unit in the last printed digit.
double last_place(const std::string& number) {
  const auto e = number.find_first_of("eE");
  const std::string mantissa = number.substr(0, e);
  const int exponent = e == std::string::npos ? 0 : std::stoi(number.substr(e + 1));
  const auto dot = mantissa.find('.');
  const int decimals = dot == std::string::npos ? 0 : static_cast<int>(mantissa.size() - dot - 1);
  return std::pow(10.0, exponent - decimals);
}

const char* word(Obtained o) {
  switch (o) {
    case Obtained::read:
      return "read";
    case Obtained::remembered:
      return "remembered";
    case Obtained::live:
      return "computed beside";
    case Obtained::closed_form:
      return "closed form";
    case Obtained::common_practice:
      return "common practice, no source";
  }
  return "";
}

}  // namespace

int digits_agreed(const std::string& published, double computed) {
  const double value = std::stod(published);
  const double difference = std::fabs(computed - value);
  const int most = significant_digits(published);
  if (!std::isfinite(computed)) return 0;
  if (difference <= 0.5 * last_place(published) * (1 + 1e-9) && value != 0) return most;
  if (difference == 0) return 17;
  const double scale = value == 0 ? 1.0 : std::fabs(value);
  const int digits = static_cast<int>(std::floor(-std::log10(difference / scale)));
  return value == 0 ? std::max(0, digits) : std::clamp(digits, 0, most);
}

void expect_outside(const OutsideCheck& check) {
  const int agreed = digits_agreed(check.published, check.computed);
  EXPECT_GE(agreed, check.digits_required)
      << check.what << ": published " << check.published << ' ' << check.unit << ", computed "
      << ::testing::PrintToString(check.computed) << " (" << check.source << ')';
  ASSERT_GT(check.digits_required, 0) << check.what << ": a check that asks for no digit can not fail";
  const char* out = std::getenv("PUMPWRIGHT_CHECKS_OUT");
  if (out == nullptr) return;
  const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
  const std::string name = std::string(test->test_suite_name()) + "." + test->name();
  std::ofstream file(std::string(out) + "/" + name + ".jsonl", std::ios::app);
  file << nlohmann::json{{"test", name},
                         {"what", check.what},
                         {"source", check.source},
                         {"obtained", word(check.obtained)},
                         {"published", check.published},
                         {"unit", check.unit},
                         {"digits_required", check.digits_required},
                         {"digits_agreed", agreed}}
              .dump()
       << '\n';
}

}  // namespace pumpwright::testing
