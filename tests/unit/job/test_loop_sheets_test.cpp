// The performance test and vibration as sheets of a job: what their readings prove, and what is said to do
// next.
#include <gtest/gtest.h>

#include "job/sheet_chart.h"
#include "tests/unit/job/sheet_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::all_remarks;
using testing::example;
using testing::job_with;
using testing::judge_document;
using testing::refusal;
using testing::result_of;

json wash_test() {
  return example("performance-orchard-wash");
}

testing::Judged judged_performance(const json& file) {
  return judge_document(job_with(SheetOf::performance, "performance", file, "guarantee"));
}

std::string line_of(const CheckFinding& finding, const std::string& name) {
  for (const auto& line : lines_of(result_of(finding)))
    if (line.name.en == name) return line.value.en;
  return "";
}

TEST(PerformanceInAJob, KeepsTheAgreedGradeAndSaysWhatEveryOtherWouldSay) {
  const auto judged = judged_performance(wash_test());
  const CheckFinding& found = judged.of("guarantee");
  EXPECT_EQ(found.verdict, Verdict::pass);
  EXPECT_EQ(line_of(found, "grade 2B"), "pass, chance 99.7 %");
  EXPECT_EQ(line_of(found, "grade 1B"), "fail, chance 1.6 %");
  EXPECT_NE(line_of(found, "head at the guaranteed flow").find("promised 75.6 ft: -3.9 %"),
            std::string::npos);
  EXPECT_EQ(judged.judgement.find("motor-load"), nullptr);  // no plate of the motor was given
}

TEST(PerformanceInAJob, AHeadThatIsMissedSaysWhatWouldMeetIt) {
  json file = wash_test();
  file["guarantee"]["grade"] = "1B";
  const auto judged = judged_performance(file);
  EXPECT_EQ(judged.of("guarantee").verdict, Verdict::fail);
  const std::string said = all_remarks(judged.of("guarantee"));
  EXPECT_NE(said.find("3560 rpm (+1.7 %)"), std::string::npos) << said;
  EXPECT_NE(said.find("3571 rpm with a chance of 5 %"), std::string::npos) << said;
  EXPECT_NE(said.find("Un recorte no ayuda"), std::string::npos) << said;
}

TEST(PerformanceInAJob, TooMuchHeadNamesTheCutAndItsChance) {
  json file = wash_test();
  file["guarantee"]["head"] = "68 ft";
  file["guarantee"]["grade"] = "1B";
  const auto judged = judged_performance(file);
  EXPECT_EQ(judged.of("guarantee").verdict, Verdict::fail);
  const std::string said = all_remarks(judged.of("guarantee"));
  EXPECT_NE(said.find("A cut to "), std::string::npos) << said;
  EXPECT_NE(said.find("of undershooting; cut to "), std::string::npos) << said;
  EXPECT_NE(said.find("can not be undone"), std::string::npos) << said;
}

TEST(PerformanceInAJob, ARememberedGradeDecidesNothing) {
  json file = wash_test();
  file["guarantee"].erase("confirmed_by");
  const auto judged = judged_performance(file);
  EXPECT_EQ(judged.of("guarantee").verdict, Verdict::unproven);
  EXPECT_EQ(judged.of("guarantee").reason, Reason::limit_unconfirmed);
}

TEST(PerformanceInAJob, ACoarseGaugeLeavesItUnprovenAndNamesWhereToBegin) {
  json file = wash_test();
  file["test"]["instruments"][1]["error_of_range"] = "3 %";
  const auto judged = judged_performance(file);
  EXPECT_EQ(judged.of("guarantee").reason, Reason::inside_uncertainty);
  EXPECT_NE(all_remarks(judged.of("guarantee")).find("comes from discharge-gauge; begin there"),
            std::string::npos);
}

TEST(PerformanceInAJob, TheMotorIsLoadedWhereThePumpAsksMostOnTheSupplyThereIs) {
  json file = wash_test();
  file["driver"] = {{"rated_power", "3.5 hp"}, {"service_factor", 1.2}};
  const auto even = judged_performance(file);
  EXPECT_EQ(even.of("motor-load").verdict, Verdict::pass);
  const double load = even.of("motor-load").readings.at(0).value->si();
  EXPECT_NEAR(load, 3.914 / 3.5 * 1.02, 0.01);  // at 173.5 gpm, brought to the rated speed
  EXPECT_NE(all_remarks(even.of("motor-load")).find("end of the tested flows"), std::string::npos);
  // NEMA MG 1: mean 450 V, largest deviation 13.5 V, 3 %; the motor may give 90 % of its plate.
  file["driver"]["lines"] = {"463.5 V", "450 V", "436.5 V"};
  const auto uneven = judged_performance(file);
  EXPECT_NEAR(uneven.of("motor-load").readings.at(0).value->si(), load / 0.90, 1e-9);
  EXPECT_EQ(uneven.of("motor-load").verdict, Verdict::fail);
  file["driver"]["lines"] = {"490 V", "450 V", "410 V"};
  EXPECT_EQ(judged_performance(file).of("motor-load").reason, Reason::test_proves_nothing);
}

TEST(PerformanceInAJob, WithoutPowerTheMotorsLoadIsNotKnown) {
  json file = wash_test();
  file["driver"] = {{"rated_power", "5 hp"}};
  file["guarantee"].erase("efficiency");
  for (auto& point : file["test"]["points"])
    for (const char* key : {"voltage", "current", "power_factor"})
      point.erase(key);
  const auto judged = judged_performance(file);
  EXPECT_EQ(judged.of("guarantee").verdict, Verdict::pass);
  EXPECT_EQ(judged.of("motor-load").reason, Reason::test_proves_nothing);
}

TEST(PerformanceInAJob, PointsBelongToTheReadingAndAGradeToTheMakeUp) {
  json document = job_with(SheetOf::performance, "performance", wash_test(), "guarantee");
  json planned = document;
  planned["make_up"]["sheets"]["performance"]["test"]["points"] = json::array();
  EXPECT_NE(refusal([&] { judge_document(planned); }).find("this in the reading"), std::string::npos);
  json no_grade = document;
  no_grade["make_up"]["sheets"]["performance"]["guarantee"].erase("grade");
  EXPECT_NE(refusal([&] { judge_document(no_grade); }).find("the agreed grade"), std::string::npos);
  json misplaced = document;
  misplaced["events"].back()["sheet"]["test"]["rated_speed"] = "1 rpm";
  EXPECT_NE(refusal([&] { judge_document(misplaced); }).find("test/points"), std::string::npos);
}

TEST(PerformanceInAJob, ThePictureHoldsEveryPointAndTheCross) {
  const auto judged = judged_performance(wash_test());
  const auto picture = picture_of(result_of(judged.of("guarantee")));
  ASSERT_TRUE(picture);
  EXPECT_EQ(picture->circles.size(), 2U * 8U);  // in head and in efficiency
  const auto limits = std::count_if(picture->strokes.begin(), picture->strokes.end(),
                                    [](const auto& stroke) { return stroke.ink == Ink::limit; });
  EXPECT_EQ(limits, 2 + 4);  // two bars with their ends
  for (const auto& stroke : picture->strokes)
    for (const auto& point : stroke.points) {
      EXPECT_GE(point.x, 0);
      EXPECT_LE(point.x, SheetPicture::width);
      EXPECT_GE(point.y, 0);
      EXPECT_LE(point.y, picture->height);
    }
}

testing::Judged judged_vibration(const json& file) {
  return judge_document(job_with(SheetOf::vibration, "vibration", file, "vibration"));
}

TEST(VibrationInAJob, IsJudgedByItsHighestPlace) {
  json file = example("vibration-orchard-wash");
  const auto remembered = judged_vibration(file);
  EXPECT_EQ(remembered.of("vibration").reason, Reason::limit_unconfirmed);
  file["confirmed_by"] = "lead hand of the demonstration shop (invented)";
  const auto good = judged_vibration(file);
  EXPECT_EQ(good.of("vibration").verdict, Verdict::pass);
  EXPECT_EQ(good.of("vibration").readings.at(0).as_written, "pump bearing, horizontal: 2.90 mm/s");
  file["overall"][3]["velocity"] = "9.9 mm/s";
  const auto bad = judged_vibration(file);
  EXPECT_EQ(bad.of("vibration").verdict, Verdict::fail);
  EXPECT_NE(all_remarks(bad.of("vibration")).find("drive bearing, horizontal, zone D"), std::string::npos);
  const auto picture = picture_of(result_of(bad.of("vibration")));
  ASSERT_TRUE(picture);
  EXPECT_EQ(picture->words.size(), 4U + 3U);  // four places, three ends of zones
}

TEST(VibrationInAJob, AZoneNeedsCategoryAndPower) {
  json file = example("vibration-orchard-wash");
  file.erase("category");
  file.erase("power");
  EXPECT_NE(refusal([&] { judged_vibration(file); }).find("category and power"), std::string::npos);
}

testing::Judged judged_system(const json& file) {
  return judge_document(job_with(SheetOf::system, "system", file, "operating-point"));
}

json greenhouse_loop() {
  return example("system-greenhouse");
}

TEST(SystemInAJob, IsDecidedByTheCurveUntilTheMotorIsRead) {
  json document = job_with(SheetOf::system, "system", greenhouse_loop(), "operating-point");
  document["events"].erase(document["events"].size() - 1);
  const auto unread = judge_document(document);
  const CheckFinding& found = unread.of("operating-point");
  EXPECT_EQ(found.verdict, Verdict::pass);
  EXPECT_EQ(found.readings.at(0).as_written, "");
  EXPECT_EQ(line_of(found, "motor, by its input"), "");
  const auto read = judged_system(greenhouse_loop());
  EXPECT_EQ(read.of("operating-point").verdict, Verdict::pass);
  EXPECT_EQ(read.of("operating-point").readings.at(0).as_written,
            "1761 rpm, 2.3 A, 1.21 kW, 462, 463, 455 V");
  // 1.21 kW at 84 % of 2 hp; by hand 1210 * 0.84 / 1491.4
  EXPECT_EQ(line_of(read.of("operating-point"), "motor, by its input"), "68 %");
}

TEST(SystemInAJob, AMotorThatIsOverloadedByItsInputFailsAndSaysThatTheCurveSaysOtherwise) {
  json file = greenhouse_loop();
  file["motor"]["measured"]["input_power"] = "2.4 kW";
  const auto judged = judged_system(file);
  EXPECT_EQ(judged.of("operating-point").verdict, Verdict::fail);
  const std::string said = all_remarks(judged.of("operating-point"));
  EXPECT_NE(said.find("overloaded beyond its service factor"), std::string::npos) << said;
  EXPECT_NE(said.find("The motor's input says 135 % of its rating"), std::string::npos) << said;
  EXPECT_NE(said.find("sobrecargado"), std::string::npos) << said;
}

TEST(SystemInAJob, ServiceFactorUnevenSupplyAndCurvesThatDoNotMeetProveNothing) {
  json in_factor = greenhouse_loop();
  in_factor["motor"]["measured"]["input_power"] = "1.9 kW";  // 107 % of the plate
  EXPECT_EQ(judged_system(in_factor).of("operating-point").reason, Reason::inside_uncertainty);
  json uneven = greenhouse_loop();
  uneven["motor"]["measured"]["lines"] = {"400 V", "460 V", "460 V"};
  EXPECT_EQ(judged_system(uneven).of("operating-point").reason, Reason::test_proves_nothing);
  json too_high = greenhouse_loop();
  too_high["plant"]["static_head"] = "60 ft";
  const auto apart = judged_system(too_high);
  EXPECT_EQ(apart.of("operating-point").reason, Reason::not_computable);
  EXPECT_NE(all_remarks(apart.of("operating-point")).find("nothing moves"), std::string::npos);
}

TEST(SystemInAJob, ThePictureHoldsBothCurvesAndWhereTheyMeet) {
  const auto judged = judged_system(greenhouse_loop());
  const auto picture = picture_of(result_of(judged.of("operating-point")));
  ASSERT_TRUE(picture);
  EXPECT_EQ(picture->circles.size(), 1U);
  const auto count = [&](Ink ink) {
    return std::count_if(picture->strokes.begin(), picture->strokes.end(), [ink](const auto& stroke) {
      return stroke.ink == ink && stroke.points.size() > 10;
    });
  };
  EXPECT_EQ(count(Ink::found), 1);
  EXPECT_EQ(count(Ink::part), 1);
  for (const auto& stroke : picture->strokes)
    for (const auto& point : stroke.points) {
      EXPECT_GE(point.y, 0);
      EXPECT_LE(point.y, picture->height);
    }
}

TEST(SheetChart, TicksStandAtRoundNumbersOfItsUnit) {
  const Unit& gpm = unit_with_symbol("gpm", Kind::volume_flow);
  const Unit& ft = unit_with_symbol("ft", Kind::length);
  const SheetChart chart({0, to_si(176, gpm), &gpm, {"flow", "caudal"}},
                         {to_si(55, ft), to_si(86, ft), &ft, {"head", "altura"}}, 20, 100);
  SheetPicture picture;
  chart.draw_axes(picture, true);
  std::vector<std::string> words;
  for (const auto& word : picture.words)
    words.push_back(word.text.en);
  EXPECT_EQ(words,
            (std::vector<std::string>{"60", "70", "80", "head, ft", "0", "50", "100", "150", "flow, gpm"}));
  EXPECT_NEAR(chart.y(to_si(86, ft)), 20, 1e-9);
  EXPECT_NEAR(chart.y(to_si(55, ft)), 120, 1e-9);
}

}  // namespace
}  // namespace pumpwright::job
