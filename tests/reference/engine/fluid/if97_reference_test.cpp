#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/fluid/if97.h"
#include "engine/fluid/saturation.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace fluid;

constexpr int all_printed = 9;

AbsolutePressure megapascals(double p) {
  return {pascals(1e6 * p)};
}

// A row of Table 5 or 15: as printed, in m³/kg, kJ and m/s.
struct VerificationRow {
  double t_k;
  double p_mpa;
  const char* volume;
  const char* enthalpy;
  const char* energy;
  const char* entropy;
  const char* heat_capacity;
  const char* sound;
};

void expect_row(const VerificationRow& row, const WaterState& state, const std::string& table) {
  const std::string at = fmt::format("water at {:g} K, {:g} MPa: ", row.t_k, row.p_mpa);
  const std::string source = "IAPWS R7-97(2012), " + table;
  const auto expect = [&](const char* what, Obtained obtained, const char* published, double computed,
                          const char* unit) {
    expect_outside({at + what, source, obtained, published, computed, unit, all_printed});
  };
  const auto read = Obtained::read;
  const auto remembered = Obtained::remembered;
  expect("specific volume", read, row.volume, state.specific_volume.value(), "m³/kg");
  expect("enthalpy", read, row.enthalpy, state.enthalpy.value() / 1e3, "kJ/kg");
  expect("internal energy", remembered, row.energy, state.internal_energy.value() / 1e3, "kJ/kg");
  expect("entropy", row.t_k == 300 && row.p_mpa > 1 ? read : remembered, row.entropy,
         state.entropy.value() / 1e3, "kJ/(kg K)");
  expect("heat capacity", read, row.heat_capacity, state.isobaric.value() / 1e3, "kJ/(kg K)");
  expect("speed of sound", row.p_mpa == 0.0035 || row.p_mpa == 30 ? remembered : read, row.sound,
         state.sound.value(), "m/s");
  EXPECT_NEAR(state.density.value() * state.specific_volume.value(), 1, 1e-15);
}

TEST(If97Reference, LiquidOfTheVerificationTable) {
  for (const VerificationRow& row :
       {VerificationRow{300, 3, "0.100215168e-2", "0.115331273e3", "0.112324818e3", "0.392294792",
                        "0.417301218e1", "0.150773921e4"},
        VerificationRow{300, 80, "0.971180894e-3", "0.184142828e3", "0.106448356e3", "0.368563852",
                        "0.401008987e1", "0.163469054e4"},
        VerificationRow{500, 3, "0.120241800e-2", "0.975542239e3", "0.971934985e3", "0.258041912e1",
                        "0.465580682e1", "0.124071337e4"}})
    expect_row(row, liquid_water(kelvin(row.t_k), megapascals(row.p_mpa)), "Table 5");
}

TEST(If97Reference, SteamOfTheVerificationTable) {
  for (const VerificationRow& row :
       {VerificationRow{300, 0.0035, "0.394913866e2", "0.254991145e4", "0.241169160e4", "0.852238967e1",
                        "0.191300162e1", "0.427920172e3"},
        VerificationRow{700, 0.0035, "0.923015898e2", "0.333568375e4", "0.301262819e4", "0.101749996e2",
                        "0.208141274e1", "0.644289068e3"},
        VerificationRow{700, 30, "0.542946619e-2", "0.263149474e4", "0.246861076e4", "0.517540298e1",
                        "0.103505092e2", "0.480386523e3"}})
    expect_row(row, steam(kelvin(row.t_k), megapascals(row.p_mpa)), "Table 15");
}

TEST(If97Reference, BoundaryOfSteam) {
  expect_outside({"boundary of regions 2 and 3 at 623.15 K", "IAPWS R7-97(2012), section 4",
                  Obtained::remembered, "0.165291643e2", steam_boundary(kelvin(623.15)).value.value() / 1e6,
                  "MPa", all_printed});
}

TEST(If97Reference, SaturationPressureOfTheVerificationTable) {
  struct Row {
    double t_k;
    const char* p_mpa;
  };
  for (const Row& row : {Row{300, "0.353658941e-2"}, Row{500, "0.263889776e1"}, Row{600, "0.123443146e2"}})
    expect_outside({fmt::format("saturation pressure at {:g} K", row.t_k), "IAPWS R7-97(2012), Table 35",
                    Obtained::read, row.p_mpa, water_saturation_pressure(kelvin(row.t_k)).value.value() / 1e6,
                    "MPa", all_printed});
}

TEST(If97Reference, SaturationTemperatureOfTheVerificationTable) {
  struct Row {
    double p_mpa;
    const char* t_k;
  };
  for (const Row& row : {Row{0.1, "0.372755919e3"}, Row{1, "0.453035632e3"}, Row{10, "0.584149488e3"}})
    expect_outside({fmt::format("saturation temperature at {:g} MPa", row.p_mpa),
                    "IAPWS R7-97(2012), Table 36", Obtained::read, row.t_k,
                    kelvin_of(water_saturation_temperature(megapascals(row.p_mpa))), "K", all_printed});
}

}  // namespace
}  // namespace pumpwright::testing
