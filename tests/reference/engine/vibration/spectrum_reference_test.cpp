// Spectra beside SciPy's, line by line.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/vibration/spectrum.h"
#include "tests/support/live_python.h"
#include "tests/support/made_signal.h"
#include "tests/support/outside_check.h"

namespace pumpwright::vibration {
namespace {

using testing::live_versions;
using testing::live_words;
using testing::made_signal;
using testing::SampleFile;

struct Case {
  std::size_t count, segment, overlap;
  Window window;
  const char* scipys;
};

// Largest difference of a line, in parts of the strongest line.
double largest_difference(const Spectrum& ours, const std::vector<std::string>& theirs) {
  double most = 0, strongest = 0;
  for (std::size_t k = 0; k < ours.density.size(); ++k) {
    const double other = std::stod(theirs[k]);
    strongest = std::max(strongest, other);
    most = std::max(most, std::fabs(ours.density[k] - other));
  }
  return most / strongest;
}

TEST(SpectrumBesideScipy, EveryLineToTenDigitsOfTheStrongest) {
  const Case cases[] = {
      {20'000, 1024, 512, Window::hann, "hann"},       {20'000, 1024, 700, Window::flat_top, "flattop"},
      {20'001, 512, 0, Window::rectangular, "boxcar"}, {4'096, 4096, 0, Window::hann, "hann"},
      {9'000, 2048, 1024, Window::hann, "hann"},       {600, 2, 1, Window::rectangular, "boxcar"},
      {600, 8, 3, Window::rectangular, "boxcar"}};
  SerialExecutor executor;
  for (const auto& c : cases) {
    const auto x =
        made_signal({{49.2, 3, 0}, {295.1, 1.3, 1}, {176.4, 0.4, 2}}, 2560, c.count, 0.8, c.segment);
    const SampleFile file(x);
    const auto theirs =
        live_words(fmt::format("welch {} 2560 {} {} {}", file.path(), c.segment, c.overlap, c.scipys));
    const auto ours = welch(x, Frequency::from_value(2560),
                            {.segment = c.segment, .overlap = c.overlap, .window = c.window}, executor);
    ASSERT_EQ(ours.density.size(), theirs.size());
    EXPECT_LT(largest_difference(ours, theirs), 1e-10) << c.scipys << " " << c.segment;
    const std::size_t line = ours.density.size() / 50 + 1;
    testing::expect_outside(
        {fmt::format("density of line {}, {} window, segment {}", line, word_for(c.window), c.segment),
         "scipy.signal.welch, " + live_versions(), testing::Obtained::live, theirs[line], ours.density[line],
         "1/Hz", 9});
  }
}

}  // namespace
}  // namespace pumpwright::vibration
