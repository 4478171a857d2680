#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/assembly/fastener.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

constexpr double inch = 0.0254;
constexpr double pound_force = 4.4482216152605;
constexpr double ksi = 1000 * pound_force / (inch * inch);
constexpr double pound_foot = pound_force * 12 * inch;

Thread unified(double diameter_in, double per_inch) {
  return {ThreadForm::unified, metres(diameter_in * inch), metres(inch / per_inch)};
}
Thread metric(double diameter_mm, double pitch_mm) {
  return {ThreadForm::iso_metric, metres(diameter_mm / 1000), metres(pitch_mm / 1000)};
}

struct AreaRow {
  const char* thread;
  double diameter;
  double pitch;  // unified: threads per inch
  const char* area;
  int digits;
};

TEST(FastenerReference, InchStressAreasAreThoseOfThePrintedTable) {
  const std::string source = "public bolt torque guide, table of inch thread stress areas (SAE J429)";
  const std::vector<AreaRow> rows{
      {"1/4-20", 1. / 4, 20, "0.0318", 3}, {"5/16-18", 5. / 16, 18, "0.0524", 3},
      {"3/8-16", 3. / 8, 16, "0.0775", 3}, {"7/16-14", 7. / 16, 14, "0.1063", 4},
      {"1/4-28", 1. / 4, 28, "0.0364", 3}, {"5/16-24", 5. / 16, 24, "0.0580", 3},
      {"1/2-13", 1. / 2, 13, "0.1419", 4}, {"9/16-12", 9. / 16, 12, "0.182", 3},
      {"5/8-11", 5. / 8, 11, "0.226", 3},  {"3/4-10", 3. / 4, 10, "0.334", 3},
      {"3/8-24", 3. / 8, 24, "0.0878", 3}, {"1/2-20", 1. / 2, 20, "0.1599", 4},
      {"3/4-16", 3. / 4, 16, "0.373", 3},  {"1-8", 1., 8, "0.606", 3},
  };
  for (const AreaRow& row : rows)
    expect_outside({std::string("stress area ") + row.thread, source, Obtained::read, row.area,
                    stress_area(unified(row.diameter, row.pitch)).value() / (inch * inch), "in^2",
                    row.digits - 1});
}

struct ProofRow {
  double diameter;
  double pitch;
  const char* area_mm2;
  double proof_88_mpa;
  const char* proof_88_n;
  const char* proof_109_n;
};

TEST(FastenerReference, MetricStressAreasAndProofLoadsAreThoseOfThePrintedTable) {
  const std::string source =
      "ISO 898-1, coarse thread proof loads, public restatement; proof stresses 580, 600, 830 MPa remembered";
  const std::vector<ProofRow> rows{
      {6, 1, "20.1", 580, "11600", "16700"},  {8, 1.25, "36.6", 580, "21200", "30400"},
      {10, 1.5, "58", 580, "33700", "48100"}, {12, 1.75, "84.3", 580, "48900", "70000"},
      {16, 2, "157", 580, "91000", "130000"}, {20, 2.5, "245", 600, "147000", "203000"}};
  for (const ProofRow& row : rows) {
    const Thread thread = metric(row.diameter, row.pitch);
    const std::string name = fmt::format("M{}: ", row.diameter);
    const double area_m2 = stress_area(thread).value();
    expect_outside({name + "stress area", source, Obtained::read, row.area_mm2, area_m2 * 1e6, "mm^2", 2});
    if (row.diameter > 16) continue;  // the loads of M20 were not in the copy read
    expect_outside({name + "proof load 8.8", source, Obtained::read, row.proof_88_n,
                    area_m2 * row.proof_88_mpa * 1e6, "N", 2});
    expect_outside(
        {name + "proof load 10.9", source, Obtained::read, row.proof_109_n, area_m2 * 830e6, "N", 2});
    const ShareRange share =
        share_of_proof_load({newtons(std::stod(row.proof_88_n)), newtons(std::stod(row.proof_88_n))}, thread,
                            pascals(row.proof_88_mpa * 1e6));
    EXPECT_NEAR(share.largest, 1, 0.01);
  }
}

TEST(FastenerReference, TorqueTableEntriesFollowFromKAndProofLoad) {
  const Thread half_inch = unified(0.5, 13);
  const double area_m2 = stress_area(half_inch).value();
  const double grade5_n = 0.75 * 85 * ksi * area_m2;
  const double grade2_n = 0.75 * 55 * ksi * area_m2;
  const std::string guide = "public bolt torque guide, 1/2-13 grade 5, 75 % of proof load";
  const std::string table = "public torque table, 1/2-13 grade 2, 75 % of 55 ksi, K = 0.20";
  expect_outside(
      {"1/2-13 grade 5 clamp load", guide, Obtained::read, "9050", grade5_n / pound_force, "lbf", 3});
  expect_outside({"1/2-13 grade 5 torque, K = 0.20", guide, Obtained::read, "75",
                  torque_for_preload(0.20, half_inch.diameter, newtons(grade5_n)).value() / pound_foot,
                  "lbf ft", 2});
  expect_outside({"1/2-13 grade 5 torque, K = 0.15 (the guide rounds down to 55)", guide, Obtained::read,
                  "55", torque_for_preload(0.15, half_inch.diameter, newtons(grade5_n)).value() / pound_foot,
                  "lbf ft", 1});
  expect_outside(
      {"1/2-13 grade 2 clamp load", table, Obtained::read, "5853", grade2_n / pound_force, "lbf", 4});
  expect_outside({"1/2-13 grade 2 torque", table, Obtained::read, "48.8",
                  torque_for_preload(0.20, half_inch.diameter, newtons(grade2_n)).value() / pound_foot,
                  "lbf ft", 3});
}

TEST(FastenerReference, TextbookLongFormIsReproduced) {
  const std::string source =
      "Shigley's Mechanical Engineering Design, ch. 8, 3/4-16 UNF grade 5, F = 25 000 lbf, f = 0.15";
  const Length diameter = metres(0.75 * inch);
  const Force preload = newtons(25'000 * pound_force);
  const double pound_inch = pound_force * inch;
  expect_outside({"short form, K = 0.2", source, Obtained::remembered, "3750",
                  torque_for_preload(0.2, diameter, preload).value() / pound_inch, "lbf in", 4});
  // The book puts the collar at 0.625 d (mean diameter 1.25 d): outside 1.5 d, inside d. It takes d_m as the
  // mean of d and d_r = 0.6685 in, which differs from the pitch diameter used here by 0.0002 in.
  const LongFormJoint joint{unified(0.75, 16), {1.5 * diameter, diameter}};
  expect_outside(
      {"long form", source, Obtained::remembered, "3551",
       (torque_per_preload(joint, 0.15, 0.15, LongForm::power_screw) * preload).value() / pound_inch,
       "lbf in", 3});
}

// The two published long forms against their own closed forms worked out separately, M10 x 1.5.
TEST(FastenerReference, MotoshAndVdiAgreeWithTheirFormulas) {
  const LongFormJoint joint{metric(10, 1.5), {metres(0.016), metres(0.011)}};
  const double preload_n = 0.75 * 580 * 58;  // 75 % of the 8.8 proof load
  struct Row {
    double mu;
    const char* motosh;
    const char* vdi;
  };
  for (const Row& row : {Row{0.10, "36.201", "36.293"}, Row{0.12, "42.236", "42.341"},
                         Row{0.14, "48.272", "48.388"}, Row{0.20, "66.379", "66.531"}}) {
    const std::string name = fmt::format("M10 8.8, mu {}: ", row.mu);
    expect_outside({name + "Motosh", "T = F [P/(2 pi) + mu r_t/cos 30 + mu r_b], evaluated separately",
                    Obtained::closed_form, row.motosh,
                    preload_n * torque_per_preload(joint, row.mu, row.mu, LongForm::motosh).value(), "N m",
                    5});
    expect_outside(
        {name + "VDI 2230", "VDI 2230, T = F [0.16 P + 0.58 d2 mu + mu D_Km/2], evaluated separately",
         Obtained::closed_form, row.vdi,
         preload_n * torque_per_preload(joint, row.mu, row.mu, LongForm::vdi2230).value(), "N m", 5});
  }
}

}  // namespace
}  // namespace pumpwright::testing
