// From the sweeps of a job to which part is out: what is taken, what is left out, how it is said and drawn.
#include "job/true_running.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/format.h"
#include "job/true_picture.h"
#include "job/true_wording.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;
using testing::judge_document;
using testing::reading_of;
using true_running::Rotating;

constexpr double thou = 25.4e-6;

// The sweep of a surface whose centre is off the axis: half the TIR towards a place.
void read_off_centre(json& document, const std::string& check, double tir_thou, double high_spot_deg) {
  for (auto& point : reading_of(document, check)["sweep"]["points"]) {
    const double at = (point["angle_deg"].get<double>() - high_spot_deg) * pi / 180;
    const double from_first = std::cos(-high_spot_deg * pi / 180);
    point["reading"] = format_decimals(metres(tir_thou / 2 * (std::cos(at) - from_first) * thou),
                                       unit_with_symbol("thou", Kind::length), 1);
    auto text = point["reading"].get<std::string>();
    point["reading"] = text.substr(0, text.find(' '));
  }
}

// Of a part that leans by four thou an inch: twice the lean times the distance from where it leans.
constexpr double lean = 4e-3;
double tir_thou(const json& document, double sleeves, double impeller_widths) {
  const MakeUp make_up = decode_job_file(document.dump()).make_up;
  const double arm_m = sleeves * make_up.dimension("sleeve_length")->nominal.value() +
                       impeller_widths * make_up.dimension("impeller_width")->nominal.value();
  return 2 * lean * arm_m / thou;
}

// The greenhouse's pump with sleeve and impeller leaning together about the sleeve's shoulder: it is not
// home.
json cocked_sleeve() {
  json document = demo("greenhouse-circulator");
  read_off_centre(document, "sleeve-runout", tir_thou(document, 0.5, 0), 120);
  read_off_centre(document, "impeller-sweep", tir_thou(document, 0, 1), 120);
  return document;
}

struct Found {
  testing::Judged judged;
  JobTrueRunning job;
  TrueFinding<Rotating> rotating;
};

Found found_of(const json& document) {
  Found out;
  out.judged = judge_document(document);
  out.job = true_running_of(out.judged.snapshot, out.judged.state, out.judged.judgement);
  out.rotating = answer(out.job.rotating);
  return out;
}

TEST(TrueRunning, TakesTheStandingSweepsOfAJobByChain) {
  const Found found = found_of(demo("greenhouse-circulator"));
  std::vector<std::string> turning, standing;
  for (const auto& s : found.job.rotating.stations)
    turning.push_back(s.id);
  for (const auto& s : found.job.standing.stations)
    standing.push_back(s.id);
  EXPECT_EQ(turning, (std::vector<std::string>{"shaft-runout", "sleeve-runout", "impeller-sweep"}));
  EXPECT_EQ(standing, (std::vector<std::string>{"register-runout", "face-runout", "bracket-bore-runout",
                                                "seat-squareness"}));
  EXPECT_TRUE(found.job.left_out.empty());
  EXPECT_EQ(found.job.titles.at("impeller-sweep").es, "Barrido del impulsor");
}

TEST(TrueRunning, NamesTheSleeveThatIsNotHomeAndWhereToLook) {
  const Found found = found_of(cocked_sleeve());
  ASSERT_TRUE(found.rotating.attribution.decided);
  const auto& blames = found.rotating.attribution.best().blames;
  ASSERT_EQ(blames.size(), 1U);
  ASSERT_TRUE(blames[0].part.has_value());
  EXPECT_EQ(*blames[0].part, Rotating::Part::sleeve);
  EXPECT_NEAR(degrees_of(blames[0].tilt->direction().angle), 120, 10);
  EXPECT_TRUE(found.rotating.out_of_limits);
}

TEST(TrueRunning, IsSaidInBothLanguagesWithoutMixingDegreesAndClocks) {
  const Found found = found_of(cocked_sleeve());
  for (const Language language : {Language::english, Language::spanish}) {
    const TrueWording words(*found.job.unit, language, found.job.titles);
    const std::string said = words.found(found.job.rotating, found.rotating);
    EXPECT_NE(said.find(language == Language::english ? "from the keyway" : "desde el chavetero"),
              std::string::npos)
        << said;
    EXPECT_EQ(said.find(language == Language::english ? "o'clock" : "las "), std::string::npos) << said;
    EXPECT_NE(said.find(language == Language::english ? "The shaft is good" : "El eje está bien"),
              std::string::npos)
        << said;
    for (const auto& remedy : found.rotating.remedies)
      EXPECT_EQ(words.doing(remedy, found.job.rotating).find("{"), std::string::npos);
  }
}

TEST(TrueRunning, ASizeTheMakeUpDoesNotGiveLeavesTheSweepOutAndIsNamed) {
  json document = cocked_sleeve();
  document["make_up"]["dimensions"].erase("impeller_width");
  const auto judged = judge_document(document);
  const auto job = true_running_of(judged.snapshot, judged.state, judged.judgement);
  ASSERT_EQ(job.left_out.size(), 1U);
  EXPECT_EQ(job.left_out[0].check, "impeller-sweep");
  EXPECT_NE(job.left_out[0].why.en.find("impeller_width"), std::string::npos);
}

// The impeller swept again later, once it was drawn, cleaned and fitted as it was.
json swept_again(json document, double tir, double high_spot_deg, const json& remedy) {
  json again = reading_of(document, "impeller-sweep");
  again["id"] = "again-1";
  again["time"] = "2026-11-24T18:00:00Z";
  again.erase("replaces");
  again["sweep"]["remedy"] = remedy;
  document["events"].push_back(again);
  read_off_centre(document, "impeller-sweep", tir, high_spot_deg);
  return document;
}

json impeller_not_home() {
  json document = demo("greenhouse-circulator");
  read_off_centre(document, "impeller-sweep", 9, 120);
  return document;
}

TEST(TrueRunning, AfterARemedyWhatWasForetoldStandsBesideWhatIsRead) {
  const json out = impeller_not_home();
  const Found before = found_of(out);
  ASSERT_TRUE(before.rotating.out_of_limits);
  EXPECT_FALSE(before.job.rotating_before);
  const auto& advised = before.rotating.remedies[before.rotating.recommended];
  const auto& foretold = advised.predicted.back();
  ASSERT_EQ(foretold.station, "impeller-sweep");

  const Found good = found_of(swept_again(out, 2, 60, {{"impeller_keyway", 0}}));
  const auto after = finding_of<Rotating>(good.job).after;
  ASSERT_EQ(after.size(), 1U);
  EXPECT_EQ(after[0].predicted.station, "impeller-sweep");
  EXPECT_NEAR(after[0].predicted.tir.value.value(), foretold.tir.value.value(), 1e-12);
  EXPECT_NEAR(after[0].actual_tir.value.value(), 2 * thou, 0.1 * thou);
  EXPECT_FALSE(after[0].surprise);
  EXPECT_FALSE(good.rotating.out_of_limits);
  EXPECT_EQ(good.judged.of("impeller-sweep").verdict, Verdict::pass);
  EXPECT_EQ(good.judged.of("impeller-sweep").readings.size(), 1U);

  const Found bad = found_of(swept_again(out, 9, 120, {{"impeller_keyway", 0}}));
  EXPECT_TRUE(finding_of<Rotating>(bad.job).after.at(0).surprise);
  const TrueWording words(*bad.job.unit, Language::spanish, bad.job.titles);
  EXPECT_NE(words.outcome(finding_of<Rotating>(bad.job).after[0]).find("una sorpresa"), std::string::npos);
}

TEST(TrueRunning, ASweepOfAPartThatWasMovedSinceNoLongerCounts) {
  const Found found =
      found_of(swept_again(impeller_not_home(), 2, 60, {{"impeller_keyway", 0}, {"sleeve_turned_deg", 120}}));
  const auto& left = found.job.left_out;
  ASSERT_EQ(left.size(), 1U);
  EXPECT_EQ(left[0].check, "sleeve-runout");
  EXPECT_EQ(found.job.standing.stations.size(), 4U);  // nothing of what stands was moved
  EXPECT_FALSE(found.job.standing_before);
}

TEST(TrueRunning, ARemedyNamesWhatTurnsOrWhatStands) {
  const auto refused = [](const json& remedy) {
    return testing::refusal([&] { found_of(swept_again(impeller_not_home(), 2, 60, remedy)); });
  };
  EXPECT_NE(refused(json::object()), "");
  EXPECT_NE(refused({{"impeller_keyway", 0}, {"holes", 1}}), "");
  EXPECT_NE(refused({{"moved", "3 thou"}}), "");
  EXPECT_EQ(refused({{"sleeve_turned_deg", 90}}), "");
}

TEST(TruePicture, DrawsEachPartWhereTheErrorsOfAllThatCarriesItPutIt) {
  const Found found = found_of(cocked_sleeve());
  const auto picture = picture_of(found.job.rotating, found.rotating, found.judged.snapshot.make_up);
  ASSERT_EQ(picture.parts.size(), 3U);
  EXPECT_EQ(picture.parts[2].part, Rotating::Part::impeller);
  // Half the sweep's TIR at the place it was swept; ordinary errors of the other parts are shared out.
  const auto& impeller = picture.parts[2];
  EXPECT_NEAR(impeller.off_to.value(), tir_thou(cocked_sleeve(), 0, 1) / 2 * thou, 0.3 * thou);
  EXPECT_LT(std::fabs(picture.parts[0].off_to.value()), 0.5 * thou);
  EXPECT_GT(picture.magnification, 10);
  const double drawn = picture.magnification * impeller.off_to.value();
  EXPECT_LE(drawn, 0.26 * impeller.radius.value());
  const double digits = picture.magnification / std::pow(10, std::floor(std::log10(picture.magnification)));
  EXPECT_TRUE(std::abs(digits - 1) < 1e-9 || std::abs(digits - 2) < 1e-9 || std::abs(digits - 5) < 1e-9);
}

TEST(TruePicture, WithoutSizesDrawsNothing) {
  const Found found = found_of(cocked_sleeve());
  EXPECT_TRUE(picture_of(found.job.rotating, found.rotating, MakeUp{}).parts.empty());
}

}  // namespace
}  // namespace pumpwright::job
