#include "engine/reliability/return_rate.h"

#include "engine/metrology/quantiles.h"

namespace pumpwright::reliability {

ReturnRate return_rate(std::span<const Life> lives, double confidence) {
  require_valid(lives);
  ReturnRate rate{.total = total_time(lives), .returned = count_of(lives, Ending::returned), .low = {}};
  const auto r = static_cast<double>(rate.returned);
  const double tail = (1 - confidence) / 2;
  rate.low = 2.0 * rate.total / chi_square_quantile(1 - tail, 2 * r + 2);
  if (rate.returned == 0) return rate;
  rate.mean = rate.total / r;
  rate.high = 2.0 * rate.total / chi_square_quantile(tail, 2 * r);
  return rate;
}

}  // namespace pumpwright::reliability
