#include "engine/vibration/lane_fft.h"

#include <cmath>
#include <numbers>

#include "engine/quantity/bad_input.h"

// Four lanes are one register of AVX2: g++ makes a second version that is taken where the processor has it.
// No fused operations, so that both give the same bits.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define PUMPWRIGHT_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define PUMPWRIGHT_WIDE
#endif

namespace pumpwright::vibration {
namespace {

constexpr std::size_t lanes = LaneFft::lanes;

// Four finished quarters become the whole: value k of quarter j is turned by w^(jk) and the four are
// combined.
PUMPWRIGHT_WIDE void combine_four(double* re, double* im, std::size_t quarter, std::size_t stride,
                                  const double* cosines, const double* sines) {
  const std::size_t apart = quarter * lanes;
  for (std::size_t k = 0; k < quarter; ++k) {
    const std::size_t at = k * stride;
    const double c1 = cosines[at], s1 = sines[at], c2 = cosines[2 * at], s2 = sines[2 * at],
                 c3 = cosines[3 * at], s3 = sines[3 * at];
    double* __restrict r = re + k * lanes;
    double* __restrict i = im + k * lanes;
    for (std::size_t l = 0; l < lanes; ++l) {
      const double x1 = r[apart + l], y1 = i[apart + l], x2 = r[2 * apart + l], y2 = i[2 * apart + l],
                   x3 = r[3 * apart + l], y3 = i[3 * apart + l];
      const double b_r = x1 * c1 - y1 * s1, b_i = x1 * s1 + y1 * c1;
      const double c_r = x2 * c2 - y2 * s2, c_i = x2 * s2 + y2 * c2;
      const double d_r = x3 * c3 - y3 * s3, d_i = x3 * s3 + y3 * c3;
      const double apc_r = r[l] + c_r, apc_i = i[l] + c_i, amc_r = r[l] - c_r, amc_i = i[l] - c_i;
      const double bpd_r = b_r + d_r, bpd_i = b_i + d_i, bmd_r = b_r - d_r, bmd_i = b_i - d_i;
      r[l] = apc_r + bpd_r;
      i[l] = apc_i + bpd_i;
      r[apart + l] = amc_r + bmd_i;  // a - i b - c + i d
      i[apart + l] = amc_i - bmd_r;
      r[2 * apart + l] = apc_r - bpd_r;
      i[2 * apart + l] = apc_i - bpd_i;
      r[3 * apart + l] = amc_r - bmd_i;  // a + i b - c - i d
      i[3 * apart + l] = amc_i + bmd_r;
    }
  }
}

void combine_two(double* values) {
  for (std::size_t l = 0; l < lanes; ++l) {
    const double a = values[l], b = values[lanes + l];
    values[l] = a + b;
    values[lanes + l] = a - b;
  }
}

bool power_of_two(std::size_t size) {
  return size >= 2 && (size & (size - 1)) == 0;
}

}  // namespace

LaneFft::LaneFft(std::size_t size) : size_(size) {
  if (!power_of_two(size) || size > size_max)
    throw BadInput({"segment", "", std::to_string(size), "a power of two from 2 to 4194304 samples"});
  places_.resize(size);
  place(0, 0, 1, size);
  cosines_.resize(size);
  sines_.resize(size);
  for (std::size_t k = 0; k < size; ++k) {
    const double turn = -2 * std::numbers::pi * static_cast<double>(k) / static_cast<double>(size);
    cosines_[k] = std::cos(turn);
    sines_[k] = std::sin(turn);
  }
}

// The values first, first + step, … stand from `at` on, by their remainder.
void LaneFft::place(std::size_t at, std::size_t first, std::size_t step, std::size_t length) {
  if (length == 1) {
    places_[first] = at;
    return;
  }
  const std::size_t parts = length == 2 ? 2 : 4, each = length / parts;
  for (std::size_t j = 0; j < parts; ++j)
    place(at + j * each, first + j * step, parts * step, each);
}

void LaneFft::transform_part(double* re, double* im, std::size_t length) const {
  if (length == 1) return;
  if (length == 2) {
    combine_two(re);
    combine_two(im);
    return;
  }
  const std::size_t quarter = length / 4;
  for (std::size_t j = 0; j < 4; ++j)
    transform_part(re + j * quarter * lanes, im + j * quarter * lanes, quarter);
  combine_four(re, im, quarter, size_ / length, cosines_.data(), sines_.data());
}

void LaneFft::transform(std::vector<double>& re, std::vector<double>& im) const {
  transform_part(re.data(), im.data(), size_);
}

}  // namespace pumpwright::vibration
