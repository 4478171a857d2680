#include "server/sign_in_throttle.h"

#include <gtest/gtest.h>

#include "tests/unit/server/a_store.h"

namespace pumpwright::server {
namespace {

const Attempt somebody{.person = "J.M.", .device = "", .address = "10.0.0.1"};

// Tries until told to wait; gives how many were let through.
int tries_until_told_to_wait(SignInThrottle& throttle, const Attempt& attempt) {
  int tries = 0;
  while (tries < 1000 && !throttle.begin(attempt))
    ++tries;
  return tries;
}

TEST(Throttle, LetsAFewThroughThenMakesWaitLongerEachTime) {
  AStore at;
  SignInThrottle throttle(at.store->secrets(), at.clock());
  EXPECT_EQ(tries_until_told_to_wait(throttle, somebody), 5);
  std::int64_t wait = 1;
  for (int i = 0; i < 12; ++i) {
    ASSERT_EQ(throttle.begin(somebody), wait) << i;
    at.pass(wait);
    ASSERT_EQ(throttle.begin(somebody), std::nullopt) << i;
    wait = std::min<std::int64_t>(wait * 2, 900);
  }
}

TEST(Throttle, BeingToldToWaitDoesNotMakeTheWaitLonger) {
  AStore at;
  SignInThrottle throttle(at.store->secrets(), at.clock());
  tries_until_told_to_wait(throttle, somebody);
  for (int i = 0; i < 50; ++i)
    EXPECT_EQ(throttle.begin(somebody), 1);
}

TEST(Throttle, SurvivesARestart) {
  AStore at;
  {
    SignInThrottle throttle(at.store->secrets(), at.clock());
    tries_until_told_to_wait(throttle, somebody);
  }
  SignInThrottle again(at.store->secrets(), at.clock());
  EXPECT_EQ(again.begin(somebody), 1);
}

TEST(Throttle, SuccessForgetsThePersonsFailures) {
  AStore at;
  SignInThrottle throttle(at.store->secrets(), at.clock());
  for (int i = 0; i < 4; ++i)
    ASSERT_FALSE(throttle.begin(somebody));
  throttle.succeeded(somebody);
  EXPECT_EQ(tries_until_told_to_wait(throttle, somebody), 5);
}

TEST(Throttle, AStrangerDoesNotSlowDownThePersonAtAnEnrolledDevice) {
  AStore at;
  SignInThrottle throttle(at.store->secrets(), at.clock());
  tries_until_told_to_wait(throttle, somebody);
  EXPECT_FALSE(throttle.begin({.person = "J.M.", .device = "device-1", .address = "10.0.0.2"}));
  EXPECT_TRUE(throttle.begin({.person = "J.M.", .device = "", .address = "10.0.0.2"}));
}

TEST(Throttle, TryingManyPeopleFromOneAddressIsSlowedDownToo) {
  AStore at;
  SignInThrottle throttle(at.store->secrets(), at.clock());
  int let_through = 0;
  for (int i = 0; i < 100; ++i)
    if (!throttle.begin({.person = "P" + std::to_string(i), .device = "", .address = "10.0.0.1"}))
      ++let_through;
  EXPECT_EQ(let_through, 20);
  EXPECT_FALSE(throttle.begin({.person = "P100", .device = "", .address = "10.0.0.2"}));
}

TEST(Throttle, OwnSuccessBetweenGuessesDoesNotClearTheAddress) {
  AStore at;
  SignInThrottle throttle(at.store->secrets(), at.clock());
  int guesses = 0;
  for (int i = 0; i < 100; ++i) {
    if (!throttle.begin({.person = "P" + std::to_string(i), .device = "", .address = "10.0.0.1"})) ++guesses;
    const Attempt own{.person = "own", .device = "", .address = "10.0.0.1"};
    if (!throttle.begin(own)) throttle.succeeded(own);
  }
  EXPECT_LE(guesses, 20);
}

TEST(Throttle, ForgetsAfterADay) {
  AStore at;
  SignInThrottle throttle(at.store->secrets(), at.clock());
  tries_until_told_to_wait(throttle, somebody);
  at.pass(24 * 3600 + 1);
  EXPECT_EQ(tries_until_told_to_wait(throttle, somebody), 5);
}

TEST(PinThrottle, WantsAPasswordAfterFiveWrongPinsHoweverLongOneWaits) {
  AStore at;
  SignInThrottle throttle(at.store->secrets(), at.clock());
  const Attempt at_device{.person = "J.M.", .device = "device-1", .address = "10.0.0.1"};
  for (int i = 0; i < 5; ++i)
    EXPECT_TRUE(throttle.begin_pin(at_device)) << i;
  EXPECT_FALSE(throttle.begin_pin(at_device));
  at.pass(365 * 24 * 3600);
  EXPECT_FALSE(SignInThrottle(at.store->secrets(), at.clock()).begin_pin(at_device));
  EXPECT_TRUE(throttle.begin_pin({.person = "A.B.", .device = "device-1", .address = "10.0.0.1"}));
  throttle.forgive_pin(at_device);
  EXPECT_TRUE(throttle.begin_pin(at_device));
}

}  // namespace
}  // namespace pumpwright::server
