#include "engine/vibration/lane_fft.h"

#include <cmath>
#include <numbers>
#include <utility>

#include "engine/quantity/bad_input.h"

namespace pumpwright::vibration {
namespace {

// One array of all lanes as pairs of real and imaginary parts.
struct Lanes {
  double* re;
  double* im;
};

struct Turn {
  double c, s;
};

// Four values of stride-long runs become four: out[0] = a+b+c+d, the others turned by w, w², w³.
void butterfly_of_four(const Lanes& from, std::size_t quarter, const Lanes& to, std::size_t run, Turn w1,
                       Turn w2, Turn w3) {
  const double* __restrict ar = from.re, * __restrict ai = from.im;
  const double* __restrict br = ar + quarter, * __restrict bi = ai + quarter;
  const double* __restrict cr = br + quarter, * __restrict ci = bi + quarter;
  const double* __restrict dr = cr + quarter, * __restrict di = ci + quarter;
  double* __restrict y0r = to.re, * __restrict y0i = to.im;
  double* __restrict y1r = y0r + run, * __restrict y1i = y0i + run;
  double* __restrict y2r = y1r + run, * __restrict y2i = y1i + run;
  double* __restrict y3r = y2r + run, * __restrict y3i = y2i + run;
  for (std::size_t q = 0; q < run; ++q) {
    const double apc_r = ar[q] + cr[q], apc_i = ai[q] + ci[q];
    const double amc_r = ar[q] - cr[q], amc_i = ai[q] - ci[q];
    const double bpd_r = br[q] + dr[q], bpd_i = bi[q] + di[q];
    // i (b - d)
    const double jr = di[q] - bi[q], ji = br[q] - dr[q];
    const double u_r = amc_r - jr, u_i = amc_i - ji;
    const double v_r = apc_r - bpd_r, v_i = apc_i - bpd_i;
    const double t_r = amc_r + jr, t_i = amc_i + ji;
    y0r[q] = apc_r + bpd_r;
    y0i[q] = apc_i + bpd_i;
    y1r[q] = u_r * w1.c - u_i * w1.s;
    y1i[q] = u_r * w1.s + u_i * w1.c;
    y2r[q] = v_r * w2.c - v_i * w2.s;
    y2i[q] = v_r * w2.s + v_i * w2.c;
    y3r[q] = t_r * w3.c - t_i * w3.s;
    y3i[q] = t_r * w3.s + t_i * w3.c;
  }
}

void butterfly_of_two(const Lanes& from, const Lanes& to, std::size_t run) {
  for (std::size_t q = 0; q < run; ++q) {
    const double ar = from.re[q], ai = from.im[q], br = from.re[q + run], bi = from.im[q + run];
    to.re[q] = ar + br;
    to.im[q] = ai + bi;
    to.re[q + run] = ar - br;
    to.im[q + run] = ai - bi;
  }
}

bool power_of_two(std::size_t size) {
  return size >= 2 && (size & (size - 1)) == 0;
}

}  // namespace

LaneFft::LaneFft(std::size_t size) : size_(size) {
  if (!power_of_two(size) || size > size_max)
    throw BadInput({"segment", "", std::to_string(size), "a power of two from 2 to 4194304 samples"});
  cosines_.resize(size);
  sines_.resize(size);
  for (std::size_t k = 0; k < size; ++k) {
    const double turn = -2 * std::numbers::pi * static_cast<double>(k) / static_cast<double>(size);
    cosines_[k] = std::cos(turn);
    sines_[k] = std::sin(turn);
  }
}

void LaneFft::transform(std::vector<double>& re, std::vector<double>& im, std::vector<double>& work_re,
                        std::vector<double>& work_im) const {
  std::size_t length = size_, stride = 1;
  while (length >= 4) {
    const std::size_t quarter = length / 4, run = stride * lanes;
    for (std::size_t p = 0; p < quarter; ++p) {
      const std::size_t at = p * stride;
      butterfly_of_four({re.data() + p * run, im.data() + p * run}, quarter * run,
                        {work_re.data() + 4 * p * run, work_im.data() + 4 * p * run}, run,
                        {cosines_[at], sines_[at]}, {cosines_[2 * at], sines_[2 * at]},
                        {cosines_[3 * at], sines_[3 * at]});
    }
    std::swap(re, work_re);
    std::swap(im, work_im);
    length /= 4;
    stride *= 4;
  }
  if (length == 2) {
    butterfly_of_two({re.data(), im.data()}, {work_re.data(), work_im.data()}, stride * lanes);
    std::swap(re, work_re);
    std::swap(im, work_im);
  }
}

}  // namespace pumpwright::vibration
