#include "server/sessions.h"

#include <gtest/gtest.h>

#include "server/device_cookies.h"
#include "server/random_token.h"
#include "tests/unit/server/a_store.h"

namespace pumpwright::server {
namespace {

constexpr std::int64_t hour_s = 3600;

TEST(Sessions, AreFoundByTheirCookie) {
  AStore at;
  Sessions sessions(at.store->secrets(), at.clock());
  const auto cookie = sessions.begin("J.M.");
  const auto found = sessions.find(cookie);
  ASSERT_TRUE(found);
  EXPECT_EQ(found->person, "J.M.");
  EXPECT_TRUE(sessions.lives(found->id));
  EXPECT_FALSE(sessions.find(std::string(64, '0')));
  EXPECT_FALSE(sessions.find(""));
  EXPECT_FALSE(sessions.find(found->id));  // what the store holds opens nothing
}

TEST(Sessions, OnlyTheHashOfTheCookieIsKept) {
  AStore at;
  Sessions sessions(at.store->secrets(), at.clock());
  const auto cookie = sessions.begin("J.M.");
  const auto kept = at.store->secrets().list("session");
  ASSERT_EQ(kept.size(), 1U);
  EXPECT_EQ(kept.front().id, token_hash(cookie));
  EXPECT_EQ(kept.front().bytes.find(cookie), std::string::npos);
}

TEST(Sessions, SurviveARestart) {
  AStore at;
  const auto cookie = Sessions(at.store->secrets(), at.clock()).begin("J.M.");
  Sessions again(at.store->secrets(), at.clock());
  ASSERT_TRUE(again.find(cookie));
}

TEST(Sessions, EndWhenIdleAndInTheEndAnyway) {
  AStore at;
  Sessions sessions(at.store->secrets(), at.clock());
  const auto idle = sessions.begin("J.M.");
  const auto id = sessions.find(idle)->id;
  at.pass(12 * hour_s + 1);
  EXPECT_FALSE(sessions.lives(id));
  EXPECT_FALSE(sessions.find(idle));

  const auto busy = sessions.begin("J.M.");
  for (int i = 0; i < 7 * 24; ++i) {
    ASSERT_TRUE(sessions.find(busy)) << i;
    at.pass(hour_s);
  }
  at.pass(1);
  EXPECT_FALSE(sessions.find(busy));
}

TEST(Sessions, WhatWasSeenIsWrittenNowAndThenAndSurvives) {
  AStore at;
  Sessions sessions(at.store->secrets(), at.clock());
  const auto cookie = sessions.begin("J.M.");
  const auto id = sessions.find(cookie)->id;
  const auto bytes = [&] { return at.store->secrets().get("session", id)->bytes; };
  const auto first = bytes();
  at.pass(60);
  sessions.find(cookie);
  sessions.write_seen(id);
  EXPECT_EQ(bytes(), first);
  at.pass(11 * hour_s);
  sessions.find(cookie);
  sessions.write_seen(id);
  EXPECT_NE(bytes(), first);
  at.pass(11 * hour_s);
  EXPECT_TRUE(Sessions(at.store->secrets(), at.clock()).find(cookie));
}

TEST(Sessions, AnEndedSessionDoesNotComeBackByBeingSeen) {
  AStore at;
  Sessions sessions(at.store->secrets(), at.clock());
  const auto cookie = sessions.begin("J.M.");
  const auto id = sessions.find(cookie)->id;
  sessions.end(id);
  EXPECT_FALSE(sessions.find(cookie));
  sessions.write_seen(id);
  EXPECT_FALSE(at.store->secrets().get("session", id));
  EXPECT_FALSE(Sessions(at.store->secrets(), at.clock()).find(cookie));
}

TEST(Sessions, AllOfAPersonEndButTheOneInHand) {
  AStore at;
  Sessions sessions(at.store->secrets(), at.clock());
  const auto here = sessions.begin("J.M.");
  const auto there = sessions.begin("J.M.");
  const auto other = sessions.begin("A.B.");
  const auto ended = sessions.end_all_of("J.M.", sessions.find(here)->id);
  EXPECT_EQ(ended, std::vector<std::string>{token_hash(there)});
  EXPECT_TRUE(sessions.find(here));
  EXPECT_FALSE(sessions.find(there));
  EXPECT_TRUE(sessions.find(other));
}

TEST(Sessions, OneTooManyEndsTheOneUnseenForLongest) {
  AStore at;
  Sessions sessions(at.store->secrets(), at.clock(), {.per_person_max = 3});
  const auto first = sessions.begin("J.M.");
  at.pass(1);
  const auto second = sessions.begin("J.M.");
  at.pass(1);
  const auto third = sessions.begin("J.M.");
  at.pass(1);
  EXPECT_TRUE(sessions.find(first));
  const auto fourth = sessions.begin("J.M.");
  EXPECT_FALSE(sessions.find(second));
  EXPECT_TRUE(sessions.find(first));
  EXPECT_TRUE(sessions.find(third));
  EXPECT_TRUE(sessions.find(fourth));
}

TEST(DeviceCookies, TellTheDeviceAndSurviveARestart) {
  AStore at;
  DeviceCookies devices(at.store->secrets());
  const auto cookie = devices.enrol("device-1");
  EXPECT_EQ(devices.find(cookie), "device-1");
  EXPECT_EQ(DeviceCookies(at.store->secrets()).find(cookie), "device-1");
  EXPECT_FALSE(devices.find("device-1"));
  EXPECT_FALSE(devices.find(token_hash(cookie)));
}

TEST(DeviceCookies, ANewCookieOfADeviceEndsTheOldOne) {
  AStore at;
  DeviceCookies devices(at.store->secrets());
  const auto old = devices.enrol("device-1");
  const auto fresh = devices.enrol("device-1");
  EXPECT_FALSE(devices.find(old));
  EXPECT_EQ(devices.find(fresh), "device-1");
  EXPECT_FALSE(DeviceCookies(at.store->secrets()).find(old));
}

TEST(RandomToken, IsNewEveryTimeAndLongEnough) {
  const auto one = random_token();
  EXPECT_EQ(one.size(), 64U);
  EXPECT_NE(one, random_token());
  EXPECT_NE(derived_token(one, "a"), derived_token(one, "b"));
  EXPECT_NE(derived_token(one, "a"), derived_token(random_token(), "a"));
  EXPECT_TRUE(same_token("abc", "abc"));
  EXPECT_FALSE(same_token("abc", "abd"));
  EXPECT_FALSE(same_token("abc", "ab"));
}

TEST(RandomCode, IsComparedWithoutHyphensSpacesAndCase) {
  const auto code = random_code();
  EXPECT_EQ(code.size(), 14U);
  EXPECT_EQ(code_as_compared(code).size(), 12U);
  EXPECT_EQ(code_as_compared("AB cd-EF"), "abcdef");
}

}  // namespace
}  // namespace pumpwright::server
