// The seal's service as the judge sees it: margin over boiling, spring, and the stack that is off.
#include "job/seal_service.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/format.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;
using testing::judge_document;
using testing::reading_of;

json hot_water(const char* temperature, const char* suction) {
  json document = demo("greenhouse-circulator");
  document["make_up"]["service"] = {
      {"fluid", "water"}, {"temperature", temperature}, {"suction_pressure", suction}};
  return document;
}

SealService service_of(const testing::Judged& judged) {
  return seal_service({judged.snapshot, judged.state}, Asked::everything);
}

TEST(VapourMargin, TooLittleSuctionFailsAndTheSuctionItNamesPasses) {
  const auto judged = judge_document(hot_water("105 degC", "0.05 bar(g)"));
  const CheckFinding& finding = judged.of("vapour-margin");
  EXPECT_EQ(finding.verdict, Verdict::fail);
  const SealService service = service_of(judged);
  ASSERT_TRUE(service.least_suction.has_value());
  const double least_bar = service.least_suction->value.value() / 1e5;
  EXPECT_GT(least_bar, 0.05);
  const std::string enough = std::to_string(least_bar) + " bar(g)";
  EXPECT_EQ(judge_document(hot_water("105 degC", enough.c_str())).of("vapour-margin").verdict, Verdict::pass);
}

TEST(VapourMargin, IsOfAbsolutePressureSoThatAltitudeTakesItAway) {
  json document = hot_water("82 degC", "0.2 bar(g)");
  const double at_sea = service_of(judge_document(document)).margin->ratio;
  document["make_up"]["service"]["altitude"] = "1600 m";
  const SealService high = service_of(judge_document(document));
  EXPECT_LT(high.margin->ratio, at_sea);
  // ISO 2533: about 835 hPa at 1600 m.
  EXPECT_NEAR(high.state->atmosphere.value.value(), 83500, 300);
}

TEST(VapourMargin, WithoutASheetIsJudgedAtTheLiquidsTemperature) {
  json document = hot_water("82 degC", "12 psig");
  document["make_up"]["seal"].erase("sheet");
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("vapour-margin").verdict, Verdict::pass);
  const SealService service = service_of(judged);
  EXPECT_FALSE(service.judged_at_face);
  // IF97 at 82 °C, python3-iapws: 0.5139 bar; 12 psig is 0.8274 bar over 1.01325 bar.
  EXPECT_NEAR(service.margin->ratio, (1.01325 + 0.82737) / 0.51387, 1e-3);
  EXPECT_FALSE(service.missing.empty());
}

TEST(VapourMargin, OfALiquidNobodyKnowsIsNotComputable) {
  json document = hot_water("82 degC", "12 psig");
  document["make_up"]["service"]["fluid"] = "nutrient solution";
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("vapour-margin").reason, Reason::not_computable);
  EXPECT_NE(judged.of("vapour-margin").readings[0].remarks.at(0).en.find("nutrient solution"),
            std::string::npos);
}

TEST(VapourMargin, OfALiquidFromItsSheetIsThatOfItsPoints) {
  json document = hot_water("60 degC", "0.5 bar(g)");
  auto& service = document["make_up"]["service"];
  service["fluid"] = "rinse solvent";
  service["liquid"] = {
      {"source", "the solvent's sheet, invented"},
      {"vapour_pressure",
       {{{"at", "20 degC"}, {"pressure", "0.1 bar(a)"}}, {{"at", "120 degC"}, {"pressure", "4 bar(a)"}}}},
      {"viscosity",
       {{{"at", "20 degC"}, {"kinematic", "3 mm²/s"}}, {{"at", "120 degC"}, {"kinematic", "0.9 mm²/s"}}}},
      {"density", {{{"at", "20 degC"}, {"density", "850 kg/m³"}}}},
      {"heat_capacity", "2.1 kJ/(kg·K)"},
      {"conductivity", "0.13 W/(m·K)"}};
  const auto judged = judge_document(document);
  const SealService found = service_of(judged);
  ASSERT_TRUE(found.liquid && found.film && found.film->converged);
  // Clausius and Clapeyron between the two points, at the temperature it was judged at.
  const double t = kelvin_of(*found.judged_at);
  const double share = (1 / 293.15 - 1 / t) / (1 / 293.15 - 1 / 393.15);
  EXPECT_NEAR(found.margin->vapour.value.value(), 1e4 * std::pow(40, share), 1);
  EXPECT_EQ(judged.of("liquid-elastomer").reason, Reason::pair_unknown);
  const json frozen = json::parse(freeze(document.dump(), judged.snapshot));
  EXPECT_DOUBLE_EQ(service_of(judge_document(frozen)).margin->ratio, found.margin->ratio);
}

TEST(LiquidSheet, WhosePointsMakeNoLiquidIsRefusedAtItsPlace) {
  json document = hot_water("60 degC", "0.5 bar(g)");
  document["make_up"]["service"]["liquid"] = {
      {"source", "a sheet"},
      {"vapour_pressure", {{{"at", "20 degC"}, {"pressure", "0.1 bar(a)"}}}},
      {"viscosity",
       {{{"at", "20 degC"}, {"kinematic", "3 mm²/s"}}, {{"at", "120 degC"}, {"kinematic", "0.9 mm²/s"}}}},
      {"density", {{{"at", "20 degC"}, {"density", "850 kg/m³"}}}},
      {"heat_capacity", "2.1 kJ/(kg·K)"},
      {"conductivity", "0.13 W/(m·K)"}};
  try {
    judge_document(document);
    FAIL() << "accepted";
  } catch (const BadInput& e) {
    EXPECT_EQ(e.what_was_wrong().place.rfind("/make_up/service/liquid", 0), 0U) << e.what();
  }
}

TEST(VapourMargin, TheRememberedRatioDecidesNothingUntilTheShopConfirmsIt) {
  json document = hot_water("82 degC", "12 psig");
  auto& adopted = document["shop"]["adopted"];
  for (std::size_t i = 0; i < adopted.size(); ++i)
    if (adopted[i]["limit"] == "seal-service/vapour-ratio") adopted.erase(i--);
  EXPECT_EQ(judge_document(document).of("vapour-margin").reason, Reason::limit_unconfirmed);
}

TEST(Film, OfTheGreenhouseSealIsFoundAndHotterThanItsLiquid) {
  const SealService service = service_of(judge_document(demo("greenhouse-circulator")));
  ASSERT_TRUE(service.film && service.film->converged);
  EXPECT_LT(service.film->energy_residual, 1e-8);
  EXPECT_GT(kelvin_of(service.film->face_hottest), kelvin_of(service.state->temperature));
  EXPECT_GT(service.film->leakage.value(), 0);
  EXPECT_TRUE(service.judged_at_face);
  EXPECT_TRUE(service.missing.empty());
  EXPECT_TRUE(map_around(service).has_value());
}

TEST(VapourMargin, IsUnprovenWhereTheSheetIsThereAndNoFilmCouldBeComputed) {
  json document = demo("greenhouse-circulator");
  document["make_up"]["service"]["temperature"] = "101 degC";  // 30 % propylene glycol: data end at 100 °C
  document["make_up"]["service"]["suction_pressure"] = "30 psig";
  EXPECT_EQ(judge_document(document).of("vapour-margin").reason, Reason::not_computable);
  document = demo("greenhouse-circulator");
  document["make_up"]["service"].erase("concentration");
  EXPECT_EQ(judge_document(document).of("vapour-margin").reason, Reason::not_computable);
}

TEST(VapourMargin, BelowVacuumAtAltitudeIsNotComputableAndNeverAnError) {
  json document = demo("greenhouse-circulator");
  document["make_up"]["service"]["suction_pressure"] = "-0.9 bar(g)";
  document["make_up"]["service"]["altitude"] = "3000 m";
  EXPECT_EQ(judge_document(document).of("vapour-margin").reason, Reason::not_computable);
}

TEST(VapourMargin, OfAGlycolMixtureBoilsWhereWaterDoes) {
  const SealService service = service_of(judge_document(demo("greenhouse-circulator")));
  // IF97: water at 2.227 bar boils at 123.7 °C; the mixture's other data end at 100 °C.
  EXPECT_NEAR(kelvin_of(service.margin->boiling), 273.15 + 123.7, 1);
}

TEST(ElastomerTemperature, OfALiquidNoTableKnowsIsJudgedByTheLimitInWater) {
  json document = hot_water("95 degC", "12 psig");
  document["make_up"]["service"]["fluid"] = "rinse water";
  document["make_up"]["seal"]["elastomer"] = "NBR";  // 80 °C in water, 100 °C in air
  EXPECT_EQ(judge_document(document).of("elastomer-temperature").verdict, Verdict::fail);
}

TEST(SealSheet, OfFacesNoSealHasIsRefusedAtItsPlace) {
  for (const auto& [key, value] : {std::pair{"outer_diameter", "30 m"}, std::pair{"liquid", "inside"}}) {
    json document = demo("greenhouse-circulator");
    document["make_up"]["seal"]["sheet"][key] = value;
    try {
      judge_document(document);
      ADD_FAILURE() << key << " accepted";
    } catch (const BadInput& e) {
      EXPECT_EQ(e.what_was_wrong().place.rfind("/make_up/seal/sheet", 0), 0U) << e.what();
    }
  }
}

TEST(SpringForce, FollowsTheLengthThatWasMeasured) {
  json document = demo("greenhouse-circulator");
  const auto right = judge_document(document);
  EXPECT_EQ(right.of("spring-force").verdict, Verdict::pass);
  reading_of(document, "sleeve-length")["value"] = "1.380";  // 0.12 in short: 60 lbf/in more by 7 lbf
  const auto pressed = judge_document(document);
  EXPECT_EQ(pressed.of("spring-force").verdict, Verdict::fail);
  const double more_n =
      pressed.of("spring-force").readings[0].value->si() - right.of("spring-force").readings[0].value->si();
  EXPECT_NEAR(more_n, 7.2 * 4.4482216, 0.5);
}

TEST(SpringForce, OfALengthNoSealCanHaveIsNotComputable) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "sleeve-length")["value"] = "0.1";  // the seat would stand beyond the shoulder
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("working-length").verdict, Verdict::fail);
  EXPECT_EQ(judged.of("spring-force").reason, Reason::not_computable);
  EXPECT_EQ(judged.of("vapour-margin").reason, Reason::not_computable);
}

TEST(VapourMargin, OfATemperatureBeyondTheLiquidsDataIsNotComputable) {
  const auto judged = judge_document(hot_water("400 degC", "12 psig"));
  EXPECT_EQ(judged.of("vapour-margin").reason, Reason::not_computable);
  EXPECT_NE(judged.of("vapour-margin").readings[0].remarks.at(0).en.find("temperature"), std::string::npos);
}

TEST(SpringForce, WaitsForTheReadingsOfTheStack) {
  json document = demo("greenhouse-circulator");
  document["events"] = json::array();
  EXPECT_EQ(judge_document(document).of("spring-force").verdict, Verdict::not_taken);
}

TEST(WorkingLength, AStackThatIsShortNamesTheShimAndTheShortPart) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "sleeve-length")["value"] = "1.441";  // 1.5 mm short
  const auto finding = judge_document(document).of("working-length");
  EXPECT_EQ(finding.verdict, Verdict::fail);
  std::string said;
  for (const auto& remark : finding.readings[0].remarks)
    said += remark.en;
  EXPECT_NE(said.find("shim on the shaft's shoulder"), std::string::npos) << said;
  EXPECT_NE(said.find("sleeve: 0.0590 in less"), std::string::npos) << said;
}

TEST(WorkingLength, AShimThatIsThereIsChangedByWhatIsMissing) {
  json document = demo("greenhouse-circulator");
  document["make_up"]["dimensions"]["shim_thickness"] = {
      {"nominal", "0.0790 in"}, {"lower", "0.078 in"}, {"upper", "0.080 in"}};
  // The shim stands in the stack that was right without it, so its nominal comes off the sleeve.
  document["make_up"]["dimensions"]["sleeve_length"] = {
      {"nominal", "1.421 in"}, {"lower", "1.416 in"}, {"upper", "1.426 in"}};
  reading_of(document, "sleeve-length")["value"] = "1.421";
  json shim = reading_of(document, "sleeve-length");
  shim["id"] = "shim-1";
  shim["check"] = "shim-thickness";
  shim["value"] = "0.020";  // 0.059 in = 1.5 mm thinner than it should be
  auto& events = document["events"];
  for (std::size_t i = 0; i < events.size(); ++i)
    if (events[i].value("check", "") == "sleeve-length") {
      events.insert(events.begin() + static_cast<std::ptrdiff_t>(i), shim);
      break;
    }
  const auto finding = judge_document(document).of("working-length");
  EXPECT_EQ(finding.verdict, Verdict::fail);
  std::string said;
  for (const auto& remark : finding.readings[0].remarks)
    said += remark.en;
  EXPECT_NE(said.find("shim: 0.0590 in less"), std::string::npos) << said;
  EXPECT_NE(said.find("in place of 0.0200 in"), std::string::npos) << said;
}

TEST(SpringForce, WithoutALimitInTheSheetIsUnproven) {
  json document = demo("greenhouse-circulator");
  document["make_up"]["seal"]["sheet"].erase("force_lower");
  document["make_up"]["seal"]["sheet"].erase("force_upper");
  EXPECT_EQ(judge_document(document).of("spring-force").verdict, Verdict::unproven);
  EXPECT_EQ(judge_document(document).of("spring-force").reason, Reason::no_limit);
}

json with_sheet(const json& more) {
  json document = demo("greenhouse-circulator");
  document["make_up"]["seal"]["sheet"].update(more);
  return document;
}

TEST(FaceLoad, IsJudgedByTheSheetsLimitAndNotAskedWithoutOne) {
  json without = demo("greenhouse-circulator");
  without["make_up"]["seal"]["sheet"].erase("pv_limit");
  EXPECT_EQ(judge_document(without).snapshot.plan.find("face-load"), nullptr);
  const SealService service = service_of(judge_document(without));
  ASSERT_TRUE(service.load.has_value());
  // Net pressure of the hand formula: dp (B - K) + spring / A, times the speed at the mean diameter.
  const auto& load = *service.load;
  EXPECT_DOUBLE_EQ(load.pv.value(), load.net_pressure.value() * load.sliding.value());
  EXPECT_LT(service.pv_low.value(), load.pv.value());
  EXPECT_GT(service.pv_high.value(), load.pv.value());
  const auto limited = [&](double share) {
    return judge_document(with_sheet({{"pv_limit", std::to_string(share * load.pv.value()) + " Pa·m/s"}}))
        .of("face-load")
        .verdict;
  };
  EXPECT_EQ(limited(2), Verdict::pass);
  EXPECT_EQ(limited(1), Verdict::unproven);
  EXPECT_EQ(limited(0.5), Verdict::fail);
}

TEST(Circulation, CarriesTheHeatAwayWithTheUsualRise) {
  const SealService service = service_of(judge_document(demo("greenhouse-circulator")));
  ASSERT_TRUE(service.circulation && service.film);
  const auto t = service.state->temperature;
  const double per_kelvin = service.liquid->density(t, service.chamber_expected).value() *
                            service.liquid->heat_capacity(t, service.chamber_expected).value();
  EXPECT_NEAR(service.circulation->value() * per_kelvin * 5.6, service.film->heat.value(),
              1e-9 * service.film->heat.value());
}

TEST(Growth, IsOfEveryLengthOfTheStackAndWidensTheSpringsRange) {
  const auto judged = judge_document(demo("greenhouse-circulator"));
  const SealService service = service_of(judged);
  ASSERT_TRUE(service.growth && service.spring_longest && service.spring_shortest);
  // Lengths that add, all at the liquid's temperature, those that take away all cold; and the other way.
  double adding_m = 0, taking_m = 0, most = 0;
  const Check& stack = *judged.snapshot.plan.find("working-length");
  const JudgeContext in{judged.snapshot, judged.state};
  for (const auto& part : stack.chain)
    (part.coefficient > 0 ? adding_m : taking_m) +=
        mean_of(*judged.snapshot.plan.find(part.check), in)->value_si;
  for (const auto& [name, expansion] : judged.snapshot.expansions)
    most = std::max(most, expansion.value());
  const double warming_k = kelvin_of(service.state->temperature) - 293.15;
  EXPECT_NEAR(service.growth->high.value(), adding_m * most * warming_k, 1e-12);
  EXPECT_NEAR(service.growth->low.value(), -taking_m * most * warming_k, 1e-12);
  const double rate = judged.snapshot.make_up.seal.sheet->spring_rate->si;
  const double room = 2 * mean_of(*judged.snapshot.plan.find("end-float"), in)->value_si +
                      service.growth->high.value() - service.growth->low.value();
  EXPECT_NEAR(service.spring_shortest->force.value.value() - service.spring_longest->force.value.value(),
              rate * room, 1e-6);
}

TEST(FaceOverlap, ASeatHardlyWiderThanTheRingIsHungOver) {
  const auto wide =
      judge_document(with_sheet({{"seat_face_outer", "1.60 in"}, {"seat_face_inner", "1.10 in"}}));
  EXPECT_EQ(wide.of("face-overlap").verdict, Verdict::pass);
  const auto overlap = service_of(wide).overlap;
  ASSERT_TRUE(overlap.has_value());
  EXPECT_GT(overlap->track_width.value(), 0.110 * 0.0254);
  const auto narrow =
      judge_document(with_sheet({{"seat_face_outer", "1.4401 in"}, {"seat_face_inner", "1.10 in"}}));
  EXPECT_EQ(narrow.of("face-overlap").verdict, Verdict::fail);
  EXPECT_LT(narrow.of("face-overlap").readings[0].value->si(), 0);
}

TEST(FaceOverlap, WithoutTheSweepsIsNotTaken) {
  json document = with_sheet({{"seat_face_outer", "1.60 in"}, {"seat_face_inner", "1.10 in"}});
  auto& events = document["events"];
  for (auto at = events.begin(); at != events.end();)
    at = at->value("check", "") == "bracket-bore-runout" ? events.erase(at) : at + 1;
  EXPECT_EQ(judge_document(document).of("face-overlap").verdict, Verdict::not_taken);
}

TEST(HeadFollows, AStandingHeadTooHeavyForItsSpringDoesNot) {
  EXPECT_EQ(judge_document(demo("greenhouse-circulator")).snapshot.plan.find("head-follows"), nullptr);
  const auto of = [](const char* mass) {
    return judge_document(with_sheet({{"head", "standing"}, {"ring_mass", mass}}));
  };
  const auto light = of("50 g");
  EXPECT_EQ(light.of("head-follows").verdict, Verdict::pass);
  // m r w² tilt over the least the spring presses with.
  const SealService service = service_of(light);
  const double speed = light.snapshot.make_up.speed.si;
  const double required_n = 0.05 * service.load->sliding.value() * speed * service.tracking->tilt.value();
  EXPECT_NEAR(light.of("head-follows").readings[0].value->si(), required_n / service.spring->low.value(),
              1e-9);
  json heavy_and_fast = with_sheet({{"head", "standing"}, {"ring_mass", "50 kg"}});
  heavy_and_fast["make_up"]["speed"] = "7100 rpm";
  EXPECT_EQ(judge_document(heavy_and_fast).of("head-follows").verdict, Verdict::fail);
}

TEST(SealSheet, IsTheSameAfterItWasFrozen) {
  json document = with_sheet({{"head", "standing"},
                              {"ring_mass", "50 g"},
                              {"pv_limit", "7 MPa·m/s"},
                              {"seat_face_outer", "1.60 in"},
                              {"seat_face_inner", "1.10 in"},
                              {"seat_length", "8 mm"}});
  const auto judged = judge_document(document);
  const auto thawed = judge_document(json::parse(freeze(document.dump(), judged.snapshot)));
  EXPECT_EQ(encode_seal_sheet(*thawed.snapshot.make_up.seal.sheet),
            encode_seal_sheet(*judged.snapshot.make_up.seal.sheet));
  EXPECT_EQ(thawed.snapshot.make_up.seal.sheet->pv_limit->text, "7 MPa·m/s");
}

TEST(SealSheet, WhatDoesNotGoTogetherIsRefusedAtItsPlace) {
  const auto refused_at_sheet = [](const json& sheet) {
    json document = demo("greenhouse-circulator");
    document["make_up"]["seal"]["sheet"] = sheet;
    try {
      judge_document(document);
    } catch (const BadInput& e) {
      return e.what_was_wrong().place;
    }
    return std::string("accepted");
  };
  const auto refused_at = [&](const json& more) {
    json sheet = demo("greenhouse-circulator")["make_up"]["seal"]["sheet"];
    sheet.update(more);
    return refused_at_sheet(sheet);
  };
  const std::string sheet = "/make_up/seal/sheet/";
  EXPECT_EQ(refused_at({{"head", "standing"}}), sheet + "head");
  EXPECT_EQ(refused_at({{"seat_face_outer", "1.6 in"}, {"seat_face_inner", "1.7 in"}}),
            sheet + "seat_face_inner");
  json half = demo("greenhouse-circulator")["make_up"]["seal"]["sheet"];
  half.erase("seat_face_inner");
  EXPECT_EQ(refused_at_sheet(half), sheet + "seat_face_outer");
  EXPECT_EQ(refused_at({{"pv_limit", "7 MPa"}}), sheet + "pv_limit");
}

}  // namespace
}  // namespace pumpwright::job
