#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/fluid/if97.h"
#include "engine/fluid/supercooled_water.h"
#include "engine/fluid/water_conductivity.h"
#include "engine/fluid/water_viscosity.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace fluid;

struct ByDensity {
  double t_k;
  double density;
  const char* published;
  int digits;
};

TEST(WaterTransportReference, ViscosityOfTheVerificationTable) {
  for (const ByDensity& row :
       {ByDensity{298.15, 998, "889.735100", 9}, ByDensity{298.15, 1200, "1437.649467", 10},
        ByDensity{373.15, 1000, "307.883622", 9}, ByDensity{433.15, 1, "14.538324", 8},
        ByDensity{433.15, 1000, "217.685358", 9}, ByDensity{873.15, 1, "32.619287", 8},
        ByDensity{873.15, 100, "35.802262", 8}, ByDensity{873.15, 600, "77.430195", 8},
        ByDensity{1173.15, 1, "44.217245", 8}, ByDensity{1173.15, 100, "47.640433", 8},
        ByDensity{1173.15, 400, "64.154608", 8}})
    expect_outside({fmt::format("viscosity of water at {:g} K, {:g} kg/m³", row.t_k, row.density),
                    "IAPWS R12-08, Table 4", Obtained::read, row.published,
                    water_viscosity(kelvin(row.t_k), kilograms_per_cubic_metre(row.density)).value() * 1e6,
                    "µPa·s", row.digits});
}

TEST(WaterTransportReference, ConductivityWithoutEnhancement) {
  for (const ByDensity& row :
       {ByDensity{298.15, 0, "18.4341883", 9}, ByDensity{298.15, 998, "607.712868", 9},
        ByDensity{298.15, 1200, "799.038144", 9}, ByDensity{873.15, 0, "79.1034659", 9}})
    expect_outside(
        {fmt::format("conductivity of water at {:g} K, {:g} kg/m³, no enhancement", row.t_k, row.density),
         "IAPWS R15-11, Table 4", Obtained::read, row.published,
         water_background_conductivity(kelvin(row.t_k), kilograms_per_cubic_metre(row.density)).value() * 1e3,
         "mW/(m·K)", row.digits});
}

TEST(WaterTransportReference, ConductivityOfTheIndustrialForm) {
  const auto expect = [](double t_k, double p_mpa, const WaterState& state, const char* table,
                         const char* conductivity, const char* viscosity) {
    const std::string at = fmt::format(" of water at {:g} K, {:g} MPa", t_k, p_mpa);
    const std::string source = std::string("IAPWS R15-11, ") + table;
    expect_outside({"conductivity" + at, source, Obtained::read, conductivity,
                    water_conductivity(kelvin(t_k), state).value() * 1e3, "mW/(m·K)", 9});
    expect_outside({"viscosity" + at, source, Obtained::read, viscosity,
                    water_viscosity(kelvin(t_k), state.density).value() * 1e6, "µPa·s", 9});
  };
  expect(620, 20, liquid_water(kelvin(620), {pascals(20e6)}), "Table 7", "0.481485195e3", "0.709051068e2");
  expect(620, 50, liquid_water(kelvin(620), {pascals(50e6)}), "Table 7", "0.545038940e3", "0.841527945e2");
  expect(650, 0.3, steam(kelvin(650), {pascals(0.3e6)}), "Table 8", "0.522311024e2", "0.234877453e2");
  expect(800, 50, steam(kelvin(800), {pascals(50e6)}), "Table 8", "0.177709914e3", "0.393727534e2");
}

TEST(WaterTransportReference, SupercooledWater) {
  struct Row {
    double t_k;
    const char* published;
    int digits;
  };
  for (const Row& row : {Row{210, "1.2335", 5}, Row{240, "37.667", 5}, Row{273.15, "611.213", 6}})
    expect_outside({fmt::format("vapour pressure of liquid water at {:g} K", row.t_k),
                    "Murphy and Koop (2005), appendix C", Obtained::remembered, row.published,
                    liquid_water_saturation_pressure(kelvin(row.t_k)).value.value(), "Pa", row.digits});
}

}  // namespace
}  // namespace pumpwright::testing
