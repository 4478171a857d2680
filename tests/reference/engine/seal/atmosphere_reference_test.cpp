#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/seal/atmosphere.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

TEST(AtmosphereReference, TheStandardAtmospheresTableIsReproduced) {
  struct Row {
    double altitude_m;
    const char* hpa;
  };
  for (const Row& row : {Row{0, "1013.25"}, Row{1000, "898.746"}, Row{2000, "794.952"}, Row{3000, "701.085"},
                         Row{5000, "540.199"}})
    expect_outside({fmt::format("pressure at {:.0f} m geopotential altitude", row.altitude_m),
                    "ISO 2533:1975, table of the standard atmosphere", Obtained::remembered, row.hpa,
                    seal::standard_atmosphere(metres(row.altitude_m)).value.value() / 100, "hPa", 5});
}

}  // namespace
}  // namespace pumpwright::testing
