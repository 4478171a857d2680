#include "cli/sweep_csv.h"

#include <gtest/gtest.h>

namespace pumpwright {
namespace {

std::vector<SweepRow> read(std::string_view bytes, std::string_view unit = "thou") {
  return read_sweep_csv(bytes, unit_with_symbol(unit, Kind::length));
}

BadInput::What refusal(std::string_view bytes) {
  try {
    read(bytes);
  } catch (const BadInput& error) {
    return error.what_was_wrong();
  }
  ADD_FAILURE() << "not refused: " << bytes;
  return {};
}

TEST(SweepCsv, GivesBareNumbersTheDefaultUnitAndKeepsWrittenOnes) {
  const auto rows = read("angle_deg,reading\n0,7\n30,0.18 mm\n60,-.002\"\n");
  ASSERT_EQ(rows.size(), 3U);
  EXPECT_EQ(rows[0].reading.si, 7 * 25.4e-6);
  EXPECT_EQ(rows[1].reading.si, 0.18e-3);
  EXPECT_DOUBLE_EQ(rows[2].reading.si, -2 * 25.4e-6);
  EXPECT_EQ(rows[1].line, 3U);
  EXPECT_DOUBLE_EQ(rows[1].angle.si, pi / 6);
}

TEST(SweepCsv, TakesTheColumnsInEitherOrder) {
  const auto rows = read("reading, angle_deg\n5 thou,90\n");
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_DOUBLE_EQ(rows[0].angle.si, pi / 2);
  EXPECT_EQ(rows[0].reading.text, "5 thou");
}

TEST(SweepCsv, TakesSemicolonsAndTabsSoThatDecimalCommasFit) {
  EXPECT_EQ(read("angle_deg;reading\n0;0,18 mm\n")[0].reading.si, 0.18e-3);
  EXPECT_EQ(read("angle_deg\treading\n0\t0,18 mm\n")[0].reading.si, 0.18e-3);
  EXPECT_EQ(read("angle_deg,reading\n0,\"0,18 mm\"\n")[0].reading.si, 0.18e-3);
}

TEST(SweepCsv, TakesEveryLineEndAByteOrderMarkAndEmptyLines) {
  EXPECT_EQ(read("\xEF\xBB\xBF"
                 "angle_deg,reading\r\n0,1\r\n\r\n90,2\r\n")
                .size(),
            2U);
  EXPECT_EQ(read("angle_deg,reading\r0,1\r90,2").size(), 2U);
  EXPECT_EQ(read("\nangle_deg,reading\n0,1\n")[0].line, 3U);
}

TEST(SweepCsv, UndoublesQuotesInsideQuotedCells) {
  EXPECT_DOUBLE_EQ(read("angle_deg,reading\n0,\"0.002\"\"\"\n")[0].reading.si, 2 * 25.4e-6);
}

TEST(SweepCsv, NamesTheLineAndTheColumnOfAMistake) {
  const auto what = refusal("angle_deg,reading\n0,1\n90,about two\n");
  EXPECT_EQ(what.place, "line 3");
  EXPECT_EQ(what.field, "reading");
  EXPECT_EQ(what.value, "about two");
}

TEST(SweepCsv, RefusesAFileWithoutItsHeader) {
  EXPECT_EQ(refusal("0,1\n90,2\n").field, "angle_deg");
  EXPECT_EQ(refusal("").place, "line 1");
}

TEST(SweepCsv, RefusesAnotherNumberOfCells) {
  EXPECT_EQ(refusal("angle_deg,reading\n0,1,250\n").field, "columns");
  EXPECT_EQ(refusal("angle_deg,reading\n0\n").field, "columns");
  EXPECT_EQ(refusal("angle_deg,reading,by\n").field, "columns");
}

TEST(SweepCsv, RefusesWhatIsNoText) {
  EXPECT_EQ(refusal("angle_deg,reading\n0,1 \xB5m\n").field, "text");
  EXPECT_EQ(refusal(std::string_view("angle_deg,reading\n0,\0\n", 22)).field, "text");
}

TEST(SweepCsv, RefusesLinesAndFilesWithoutEnd) {
  EXPECT_EQ(refusal("angle_deg,reading\n" + std::string(5000, '1')).field, "line");
  std::string many = "angle_deg,reading\n";
  for (std::size_t i = 0; i <= sweep_rows_max; ++i)
    many += "0,1\n";
  EXPECT_EQ(refusal(many).field, "readings");
}

TEST(SweepCsv, RefusesAnAngleOrAReadingNoBenchCanGive) {
  EXPECT_EQ(refusal("angle_deg,reading\n36001,1\n").field, "angle_deg");
  EXPECT_EQ(refusal("angle_deg,reading\n0,1.5 m\n").field, "reading");
}

}  // namespace
}  // namespace pumpwright
