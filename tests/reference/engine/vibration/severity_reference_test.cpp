// The zones of vibration beside the standard's figures, as far as they are remembered.
#include <gtest/gtest.h>

#include "engine/vibration/severity.h"
#include "tests/support/outside_check.h"

namespace pumpwright::vibration {
namespace {

struct Row {
  const char* name;
  PumpCategory category;
  double power_kw;
  const char *a_to_b, *b_to_c, *c_to_d;
};

TEST(Zones, AreThoseOfTheStandardAsRemembered) {
  const Row rows[] = {{"category I, to 200 kW", PumpCategory::one, 11, "2.5", "4.0", "6.6"},
                      {"category I, over 200 kW", PumpCategory::one, 250, "3.5", "5.0", "7.6"},
                      {"category II, to 200 kW", PumpCategory::two, 11, "3.2", "5.1", "8.5"},
                      {"category II, over 200 kW", PumpCategory::two, 250, "4.2", "6.1", "9.5"}};
  const auto check = [](const std::string& what, const char* published, Velocity v) {
    testing::expect_outside({what, "ISO 10816-7:2009, tables A.1 and A.2", testing::Obtained::remembered,
                             published, v.value() * 1000, "mm/s", 2});
  };
  for (const auto& row : rows) {
    const auto limits = zone_limits(row.category, Power::from_value(row.power_kw * 1000));
    check(std::string(row.name) + ": A/B", row.a_to_b, limits.a_to_b);
    check(std::string(row.name) + ": B/C", row.b_to_c, limits.b_to_c);
    check(std::string(row.name) + ": C/D", row.c_to_d, limits.c_to_d);
  }
}

}  // namespace
}  // namespace pumpwright::vibration
