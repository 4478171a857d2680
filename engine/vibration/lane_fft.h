// Several discrete Fourier transforms of one length at once, a lane each, so that every step of the
// computation is the same for all lanes and the compiler can put them side by side.
//
// Stockham's self-sorting transform in steps of four (and one of two where the length asks for it): C. Van
// Loan, Computational Frameworks for the Fast Fourier Transform, 1992, sections 1.7 and 2.4 (remembered).
// Beside NumPy in the tests.
#pragma once

#include <cstddef>
#include <vector>

namespace pumpwright::vibration {

class LaneFft {
 public:
  static constexpr std::size_t lanes = 4;
  static constexpr std::size_t size_max = std::size_t{1} << 22U;

  // BadInput "segment" unless `size` is a power of two from 2 to size_max.
  explicit LaneFft(std::size_t size);

  std::size_t size() const { return size_; }

  // X[k] = Σ x[n] exp(-2πi nk/size) for each lane. Value n of lane l stands at n·lanes + l; the spectrum
  // takes its place. `work_*` are as large and hold nothing afterwards.
  void transform(std::vector<double>& re, std::vector<double>& im, std::vector<double>& work_re,
                 std::vector<double>& work_im) const;

 private:
  std::size_t size_;
  std::vector<double> cosines_, sines_;  // of -2π k/size, k below 3/4 size
};

}  // namespace pumpwright::vibration
