#include <cmath>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/seal/working_length.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10'001) * 1e-4;
}

// Three to eight parts within a hundredth of their drawing, whose sum as drawn is the sheet's length.
seal::WorkingLengthCase any_good_stack() {
  seal::WorkingLengthCase c;
  const int count = *rc::gen::inRange(3, 9);
  double sum_m = 0;
  for (int i = 0; i < count; ++i) {
    seal::LengthPart part;
    part.drawing.name = "part " + std::to_string(i);
    part.drawing.coefficient = i == 0 || *rc::gen::arbitrary<bool>() ? 1 : -1;
    part.drawing.nominal = metres(i == 0 ? 0.2 : between(0.001, 0.02));
    part.drawing.lower_deviation = metres(-0.05e-3);
    part.drawing.upper_deviation = metres(0.05e-3);
    part.measured =
        Measured<Length>{part.drawing.nominal + metres(between(-0.01e-3, 0.01e-3)), metres(0.005e-3)};
    sum_m += part.drawing.coefficient * part.drawing.nominal.value();
    c.parts.push_back(part);
  }
  c.required = metres(sum_m);
  c.lower_tolerance = metres(-0.5e-3);
  c.upper_tolerance = metres(0.5e-3);
  c.spring = seal::spring_of_nominal({metres(sum_m), metres(0)}, {newtons(90), newtons(2)},
                                     {newtons_per_metre(8000), newtons_per_metre(200)});
  return c;
}

TEST(WorkingLengthProperty, AGoodStackPasses) {
  hold("good", [] {
    const seal::WorkingLength w = seal::working_length(any_good_stack());
    RC_ASSERT(w.verdict.outcome == Outcome::pass);
    RC_ASSERT(!w.correction);
  });
}

TEST(WorkingLengthProperty, TheOnePartThatIsFarOffIsNamed) {
  hold("named", [] {
    seal::WorkingLengthCase c = any_good_stack();
    const auto wrong = static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(c.parts.size())));
    const double off_m = between(0.7e-3, 3e-3) * (*rc::gen::arbitrary<bool>() ? 1 : -1);
    c.parts[wrong].measured->value += metres(off_m);
    const seal::WorkingLength w = seal::working_length(c);
    RC_ASSERT(w.verdict.outcome == Outcome::fail);
    RC_ASSERT(w.correction && w.correction->part == c.parts[wrong].drawing.name);
    RC_ASSERT(w.correction->others.empty());
    RC_ASSERT(std::fabs(w.correction->left_over.value()) < 0.1e-3);
  });
}

TEST(WorkingLengthProperty, MakingTheChangeMeetsTheSheet) {
  hold("change", [] {
    seal::WorkingLengthCase c = any_good_stack();
    c.parts[1].is_shim = true;
    c.parts[0].measured->value += metres(between(0.7e-3, 3e-3));
    const seal::WorkingLength w = seal::working_length(c);
    RC_ASSERT(w.correction && w.correction->shim);
    c.parts[1].measured->value += w.correction->shim_change;
    RC_ASSERT(std::fabs(seal::working_length(c).deviation.value()) < 1e-12);
  });
}

}  // namespace
}  // namespace pumpwright::testing
