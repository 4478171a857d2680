// Several discrete Fourier transforms of one length at once, a lane each, so that every step of the
// computation is the same for all lanes and the compiler can put them side by side.
//
// Decimation in time in steps of four (and one of two where the length asks for it), in place and depth
// first: a quarter is finished before the next is begun, so that most of the work stays in the nearest cache.
// C. Van Loan, Computational Frameworks for the Fast Fourier Transform, 1992, chapters 1 and 2 (remembered).
// Beside SciPy in the tests.
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

  // Where value n has to stand before the transform, for each n.
  const std::vector<std::size_t>& places() const { return places_; }

  // X[k] = Σ x[n] exp(-2πi nk/size) for each lane. Before: value n of lane l at places()[n]·lanes + l; after:
  // X[k] at k·lanes + l.
  void transform(std::vector<double>& re, std::vector<double>& im) const;

 private:
  void place(std::size_t at, std::size_t first, std::size_t step, std::size_t length);
  void transform_part(double* re, double* im, std::size_t length) const;

  std::size_t size_;
  std::vector<std::size_t> places_;
  std::vector<double> cosines_, sines_;  // of -2π k/size, k below size
};

}  // namespace pumpwright::vibration
