// Which part is out and what puts it right, on readings with answers worked out by hand.
#include <cmath>
#include <type_traits>

#include <gtest/gtest.h>

#include "engine/assembly/true_centring.h"
#include "engine/assembly/true_next.h"
#include "engine/assembly/true_remedy.h"
#include "tests/support/refused.h"

namespace pumpwright::true_running {
namespace {

using testing::refused_field;

constexpr double thou = 25.4e-6;
constexpr double u_m = 2e-6;

// The two chains never mix.
template <class A, class B>
concept can_be_added = requires(A a, B b) {
  a + b;
};
static_assert(can_be_added<Offset<Rotating>, Offset<Rotating>>);
static_assert(!can_be_added<Offset<Rotating>, Offset<Standing>>);
static_assert(!can_be_added<Offset<Rotating>, Tilt<Rotating>>);
static_assert(!std::is_convertible_v<FromKeyway, ClockPosition>);
static_assert(!std::is_convertible_v<Station<Standing>, Station<Rotating>>);

template <class Chain>
Station<Chain> reads(Station<Chain> s, double tir_m, double toward_deg) {
  s.vector = Offset<Chain>::from_si(std::polar(tir_m / 2, toward_deg * pi / 180));
  s.covariance = {u_m * u_m, 0, 0, u_m * u_m};
  return s;
}

using RPart = Rotating::Part;
using SPart = Standing::Part;

// Shoulder at 35 mm, hub back at 73 mm; sleeve swept 20 mm, impeller 28 mm out from where they sit.
const RotatingGeometry sleeved{metres(0), metres(0.035), metres(0.073)};
const Station<Rotating> at_shaft{.id = "shaft", .part = RPart::shaft, .at = metres(0.108)};
const Station<Rotating> at_sleeve{.id = "sleeve", .part = RPart::sleeve, .at = metres(0.055)};
const Station<Rotating> at_eye{.id = "eye", .part = RPart::impeller, .at = metres(0.101)};
const Station<Rotating> at_shroud{.id = "shroud",
                                  .part = RPart::impeller,
                                  .surface = Surface::face,
                                  .at = metres(0.101),
                                  .radius = metres(0.07)};

// A sleeve cocked by 4 mrad towards 120°: 80 µm at the sleeve, 112 µm at the eye.
std::vector<Station<Rotating>> cocked_sleeve() {
  std::vector<Station<Rotating>> s{reads(at_shaft, 4e-6, 30), reads(at_sleeve, 160e-6, 120),
                                   reads(at_eye, 224e-6, 120)};
  s[1].limit = Tir{metres(2 * thou)};
  s[2].limit = Tir{metres(7 * thou)};
  return s;
}

TEST(TrueRunning, ACockedSleeveIsNamedWithItsSizeAndWay) {
  const auto stations = cocked_sleeve();
  const auto a = attribute<Rotating>(stations, sleeved);
  ASSERT_EQ(a.best().blames.size(), 1U);
  EXPECT_EQ(a.best().blames[0].fault, Fault::sleeve_not_home);
  EXPECT_TRUE(a.decided);
  EXPECT_FALSE(a.alone);  // a sleeve bored askew reads the same
  EXPECT_NEAR(a.best().blames[0].tilt->size().value(), 4e-3, 1e-4);
  EXPECT_NEAR(degrees_of(a.best().blames[0].tilt->direction().angle), 120, 2);
  EXPECT_TRUE(a.best().blames[0].region_contains(std::polar(4e-3, 2 * pi / 3)));
  EXPECT_FALSE(a.best().blames[0].region_contains(std::polar(4e-3, pi / 3)));
}

TEST(TrueRunning, EachPartsShareAddsUpToWhatWasRead) {
  const auto stations = cocked_sleeve();
  const auto a = attribute<Rotating>(stations, sleeved);
  std::complex<double> sum = 0;
  for (const auto& c : a.contributions)
    if (c.station == "eye") sum += c.vector.si();
  EXPECT_LT(std::abs(sum - stations[2].vector.si()), 3 * u_m);
  EXPECT_EQ(a.parts.size(), 3U);
  EXPECT_NEAR(a.parts[1].tilt.size().value(), 4e-3, 1e-4);
}

TEST(TrueRunning, NothingIsWrongWithAGoodRotor) {
  const std::vector<Station<Rotating>> s{reads(at_shaft, 10e-6, 30), reads(at_sleeve, 12e-6, 200),
                                         reads(at_eye, 18e-6, 90)};
  const auto a = attribute<Rotating>(s, sleeved);
  EXPECT_TRUE(a.best().blames.empty());
  EXPECT_TRUE(a.decided);
  EXPECT_TRUE(a.alone);
}

TEST(TrueRunning, WhatReadsTheSameIsListedAndNotGuessed) {
  const std::vector<Station<Rotating>> s{reads(at_shaft, 4e-6, 30), reads(at_sleeve, 4e-6, 30),
                                         reads(at_eye, 230e-6, 130)};
  const auto a = attribute<Rotating>(s, sleeved);
  std::vector<Fault> alike;
  for (const auto& h : a.hypotheses)
    if (h.looks_like_the_best && h.blames.size() == 1) alike.push_back(h.blames[0].fault);
  EXPECT_EQ(alike, (std::vector<Fault>{Fault::impeller_not_home, Fault::impeller_out_of_square,
                                       Fault::impeller_off_centre, Fault::indicator_loose}));
  EXPECT_FALSE(a.alone);
  using E = NamedError<Rotating>;
  const std::vector<E> off{{Fault::impeller_off_centre, ""}}, home{{Fault::impeller_not_home, ""}};
  EXPECT_TRUE(read_alike<Rotating>(s, sleeved, off, home));
  auto with_face = s;
  with_face.push_back(reads(at_shroud, 4e-6, 0));
  EXPECT_FALSE(read_alike<Rotating>(with_face, sleeved, off, home));
}

TEST(TrueRunning, TheFaceOfTheShroudTellsOffCentreFromCocked) {
  // Cocked by 4 mrad towards 130°: the face reads 2 · 70 mm · 4 mrad = 560 µm, standing out at 310°.
  const std::vector<Station<Rotating>> cocked{reads(at_shaft, 4e-6, 30), reads(at_sleeve, 4e-6, 30),
                                              reads(at_eye, 224e-6, 130), reads(at_shroud, 560e-6, 310)};
  EXPECT_EQ(attribute<Rotating>(cocked, sleeved).best().blames.at(0).fault, Fault::impeller_not_home);
  auto off = cocked;
  off[3] = reads(at_shroud, 4e-6, 310);
  const auto a = attribute<Rotating>(off, sleeved);
  ASSERT_EQ(a.best().blames.size(), 1U);
  EXPECT_EQ(a.best().blames[0].fault, Fault::impeller_off_centre);
  EXPECT_NEAR(a.best().blames[0].offset->size().value(), 112e-6, 4e-6);
}

TEST(TrueRunning, TurningTheSleeveTellsTheSleeveFromHowItSits) {
  auto stations = cocked_sleeve();
  auto again = at_sleeve;
  again.id = "sleeve turned";
  again.refitted[1] = radians(2 * pi / 3);
  // Its own error went round with it.
  stations.push_back(reads(again, 160e-6, 240));
  const auto own = attribute<Rotating>(stations, sleeved);
  EXPECT_EQ(own.best().blames.at(0).fault, Fault::sleeve_out_of_square);
  EXPECT_TRUE(own.alone);
  // It was gone.
  stations.back() = reads(again, 6e-6, 240);
  const auto seating = attribute<Rotating>(stations, sleeved);
  EXPECT_EQ(seating.best().blames.at(0).fault, Fault::sleeve_not_home);
  EXPECT_TRUE(seating.alone);
}

TEST(TrueRunning, ABentShaftGrowsOutwardsAndOneOffItsAxisDoesNot) {
  auto near = at_shaft;
  near.id = "near";
  near.at = metres(0.02);
  const std::vector<Station<Rotating>> bent{reads(near, 20e-6, 45), reads(at_shaft, 108e-6, 45),
                                            reads(at_sleeve, 55e-6, 45), reads(at_eye, 101e-6, 45)};
  EXPECT_EQ(attribute<Rotating>(bent, sleeved).best().blames.at(0).fault, Fault::bent_shaft);
  const std::vector<Station<Rotating>> off{reads(near, 80e-6, 45), reads(at_shaft, 80e-6, 45),
                                           reads(at_sleeve, 80e-6, 45), reads(at_eye, 80e-6, 45)};
  EXPECT_EQ(attribute<Rotating>(off, sleeved).best().blames.at(0).fault, Fault::shaft_off_axis);
}

TEST(TrueRunning, WithoutASleeveNoSleeveIsBlamed) {
  const RotatingGeometry g{metres(0), std::nullopt, metres(0.073)};
  const std::vector<Station<Rotating>> s{reads(at_shaft, 4e-6, 30), reads(at_eye, 230e-6, 130)};
  const auto a = attribute<Rotating>(s, g);
  for (const auto& h : a.hypotheses)
    for (const auto& b : h.blames)
      EXPECT_NE(b.part, std::optional(RPart::sleeve));
  EXPECT_EQ(a.not_looked_at, (std::vector<Fault>{Fault::sleeve_off_centre, Fault::sleeve_out_of_square,
                                                 Fault::sleeve_not_home}));
}

TEST(TrueRunning, TheNextSweepIsTheOneThatTellsTheTwoApart) {
  // Off centre or cocked: the same at the eye. The face tells with nothing coming off; the bare shaft tells
  // nothing.
  const std::vector<Station<Rotating>> s{reads(at_shaft, 4e-6, 30), reads(at_sleeve, 4e-6, 30),
                                         reads(at_eye, 230e-6, 130)};
  auto near = at_shaft;
  near.at = metres(0.02);
  auto turned = at_eye;
  turned.refitted[2] = radians(0);
  const std::vector<Candidate<Rotating>> candidates{{near, 2}, {turned, 1}, {at_eye, 0}};
  const auto next = next_measurement<Rotating>(s, sleeved, candidates, metres(u_m));
  ASSERT_TRUE(next.has_value());
  // The two likeliest are "not home" and "bored askew": only fitting it anew tells them apart.
  EXPECT_EQ(next->chosen.candidate, 1U);
  EXPECT_GT(next->chosen.nats, decisive_nats);
  EXPECT_LT(next->all[0].nats, 0.1);
  EXPECT_LT(next->all[2].nats, 0.1);
  EXPECT_FALSE(
      next_measurement<Rotating>(s, sleeved, std::span(candidates).first(1), metres(u_m)).has_value());
}

TEST(TrueRunning, DrawingTheSleeveIsForetoldAndASurpriseIsSeen) {
  const auto stations = cocked_sleeve();
  const auto a = attribute<Rotating>(stations, sleeved);
  const auto list = remedies(stations, sleeved, a.errors, RotatingMoves{false, 1});
  ASSERT_EQ(list.size(), 3U);
  EXPECT_EQ(recommended<Rotating>(list), 2U);  // drawing the impeller alone leaves the sleeve as it is
  EXPECT_GT(list[1].worst, 1);
  EXPECT_LT(list[2].worst, 0.5);
  const auto& eye = list[2].predicted[2];
  EXPECT_FALSE(compare(eye, reads(at_eye, 12e-6, 30)).surprise);
  EXPECT_TRUE(compare(eye, reads(at_eye, 224e-6, 120)).surprise);
}

TEST(TrueRunning, OneKeywayGivesNoChoice) {
  const std::vector<Station<Rotating>> s{reads(at_shaft, 100e-6, 130), reads(at_eye, 230e-6, 130)};
  auto limited = s;
  limited[1].limit = Tir{metres(4 * thou)};
  const RotatingGeometry g{metres(0), std::nullopt, metres(0.073)};
  ErrorBelief errors;
  errors.mean.assign(16, 0);
  errors.covariance.assign(256, 0);
  errors.mean[2] = 40e-6;   // shaft off its axis along 0
  errors.mean[10] = 50e-6;  // impeller off centre along 0
  const auto one = remedies(limited, g, errors, RotatingMoves{false, 1});
  EXPECT_DOUBLE_EQ(one[1].worst, one[0].worst);
  const auto two = remedies(limited, g, errors, RotatingMoves{false, 2});
  EXPECT_EQ(*two[1].setting.impeller_keyway, 1);
  EXPECT_NEAR(two[1].predicted[1].tir.value.value(), 20e-6, 1e-12);  // 2 · |40 - 50| µm
}

// Register, face, bore and seat of a bracket whose bore stands 4.5 thou towards four o'clock.
std::vector<Station<Standing>> bracket_off() {
  std::vector<Station<Standing>> s{
      reads(Station<Standing>{.id = "register", .part = SPart::motor}, 4e-6, 60),
      reads(
          Station<Standing>{
              .id = "face", .part = SPart::motor, .surface = Surface::face, .radius = metres(0.066)},
          6e-6, 200),
      reads(Station<Standing>{.id = "bore", .part = SPart::bracket, .at = metres(0.043)}, 9 * thou, 120),
      reads(Station<Standing>{.id = "seat",
                              .part = SPart::seat,
                              .surface = Surface::face,
                              .at = metres(0.038),
                              .radius = metres(0.02)},
            4e-6, 180)};
  s[2].limit = Tir{metres(4 * thou)};
  s[3].limit = Tir{metres(2 * thou)};
  return s;
}

TEST(TrueRunning, ABracketThatReadsNineIsMovedThreeTowardTenAndReadsThree) {
  const auto stations = bracket_off();
  const StandingGeometry g{metres(0.038)};
  const auto a = attribute<Standing>(stations, g);
  ASSERT_EQ(a.best().blames.size(), 1U);
  EXPECT_EQ(a.best().blames[0].fault, Fault::bracket_off_centre);
  const auto list = remedies(stations, g, a.errors, StandingMoves{.room = metres(3 * thou)});
  ASSERT_EQ(recommended<Standing>(list), 1U);
  EXPECT_NEAR(list[1].setting.shift.size().value(), 3 * thou, 1e-12);
  EXPECT_NEAR(degrees_of(list[1].setting.shift.direction().angle), 300, 2);
  EXPECT_NEAR(list[1].predicted[2].tir.value.value(), 3 * thou, 0.2 * thou);
}

TEST(TrueRunning, AShimLeansTheBracketAwayFromItsBolt) {
  const StandingGeometry g{metres(0.038)};
  ErrorBelief errors;
  errors.mean.assign(12, 0);
  errors.covariance.assign(144, 0);
  errors.mean[7] = 2e-3;  // the bracket leans 2 mrad towards three o'clock
  auto stations = bracket_off();
  const StandingMoves moves{
      .bolt_holes = 4, .bolt_circle = metres(0.1), .shims = {metres(0.1e-3), metres(0.2e-3)}};
  const auto list = remedies(stations, g, errors, moves);
  ASSERT_EQ(list.size(), 3U);
  // 0.2 mm over 100 mm is 2 mrad: under the bolt it leans towards.
  EXPECT_EQ(list[1].work, 2);
  EXPECT_NEAR(degrees_of(list[1].setting.shim->bolt.angle), 90, 1e-9);
  EXPECT_NEAR(list[1].setting.shim->thickness.value(), 0.2e-3, 1e-15);
  EXPECT_NEAR(list[1].predicted[3].tir.value.value(), 0, 1e-12);
}

TEST(TrueRunning, TheDialShowsHowFarItWasTapped) {
  const Centring c = centre(Offset<Standing>::from_si(std::polar(4.5 * thou, 2 * pi / 3)), metres(3 * thou));
  EXPECT_TRUE(c.stopped_by_room);
  const Tapping t = tapping(c, {degrees(300)}, metres(1 * thou));
  EXPECT_NEAR(t.left.value(), 2 * thou, 1e-12);
  // 60° off the line it sees half.
  EXPECT_NEAR(tapping(c, {degrees(240)}, metres(1 * thou)).moved.value(), 2 * thou, 1e-12);
  EXPECT_EQ(refused_field([&] { tapping(c, {degrees(210)}, metres(1 * thou)); }), "dial");
  EXPECT_FALSE(centre(c.move, metres(10 * thou)).stopped_by_room);
}

TEST(TrueRunning, WhatCanNotBeIsRefused) {
  auto s = cocked_sleeve();
  const auto field = [&] { return refused_field([&] { attribute<Rotating>(s, sleeved); }); };
  s[1].id = "shaft";
  EXPECT_EQ(field(), "stations/1/id");
  s = cocked_sleeve();
  s[2].at = metres(11);
  EXPECT_EQ(field(), "stations/2/at");
  s = cocked_sleeve();
  s[2].surface = Surface::face;
  EXPECT_EQ(field(), "stations/2/radius");
  s = cocked_sleeve();
  s[0].covariance = {1, 2, 2, 1};
  EXPECT_EQ(field(), "stations/0/covariance");
  s = cocked_sleeve();
  s[1].limit = Tir{metres(0)};
  EXPECT_EQ(field(), "stations/1/limit");
  s.clear();
  EXPECT_EQ(field(), "stations");
  s = cocked_sleeve();
  const auto a = attribute<Rotating>(s, sleeved);
  EXPECT_EQ(refused_field([&] {
              remedies(s, sleeved, a.errors, RotatingMoves{true, 0});
            }),
            "impeller_keyways");
  EXPECT_EQ(refused_field([&] { centre({}, metres(-1e-6)); }), "room");
}

}  // namespace
}  // namespace pumpwright::true_running
