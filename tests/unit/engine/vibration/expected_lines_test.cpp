#include "engine/vibration/expected_lines.h"

#include <algorithm>
#include <numbers>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::vibration {
namespace {

constexpr auto hz = [](double v) { return Frequency::from_value(v); };

PumpFacts pump() {
  return {Speed::from_value(2950 * std::numbers::pi / 30),
          6,
          hz(50),
          {{"impeller end", {9, metres(0.008), metres(0.039), {}}}}};
}

Tone tone_of(double at) {
  Tone tone;
  tone.at = hz(at);
  return tone;
}

std::vector<std::string_view> words_at(double at, double spacing) {
  std::vector<std::string_view> out;
  for (const auto& line : matching(tone_of(at), expected_lines(pump()), hz(spacing)))
    out.push_back(word_for(line.of));
  return out;
}

TEST(ExpectedLines, ATurnAVaneAndAnOuterRaceAreToldApart) {
  const double turning = 2950.0 / 60;
  EXPECT_EQ(words_at(turning, 0.5), (std::vector<std::string_view>{"turning"}));
  EXPECT_EQ(words_at(6 * turning, 0.5), (std::vector<std::string_view>{"vane-pass"}));
  EXPECT_EQ(words_at(9 * turning / 2 * (1 - 8.0 / 39), 0.5), (std::vector<std::string_view>{"outer-race"}));
  EXPECT_TRUE(words_at(3.3 * turning, 0.5).empty());
}

// 98.33 and 100 Hz: one line of 2 Hz spacing may be both.
TEST(ExpectedLines, WhatLiesWithinOneSpacingIsNotToldApart) {
  EXPECT_EQ(words_at(99, 0.25).size(), 0U);
  const auto both = words_at(99, 2);
  EXPECT_EQ(both.size(), 2U);
  EXPECT_EQ(both.front(), "twice-turning");
}

TEST(ExpectedLines, RefusesNoVanesNoSpeedNoFrequency) {
  auto facts = pump();
  facts.vanes = 0;
  EXPECT_THROW((void)expected_lines(facts), BadInput);
  facts = pump();
  facts.speed = Speed{};
  EXPECT_THROW((void)expected_lines(facts), BadInput);
  facts = pump();
  facts.line = hz(0);
  EXPECT_THROW((void)expected_lines(facts), BadInput);
}

}  // namespace
}  // namespace pumpwright::vibration
