#include "engine/assembly/order_statistics.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "engine/assembly/random_stream.h"
#include "engine/assembly/vector_loop.h"

namespace pumpwright {

Bins::Bins(double lowest, double highest)
    : lowest_(lowest),
      bins_per_unit_(highest > lowest ? static_cast<double>(inner) / (highest - lowest) : 0.0) {
  if (!std::isfinite(bins_per_unit_)) bins_per_unit_ = 0;  // a range of a few subnormals: one bin will do
}

namespace {

PUMPWRIGHT_VECTOR_LOOP
void find_bins(const double* values, std::int32_t* bins, std::size_t count, double lowest,
               double bins_per_unit) {
  constexpr double last = static_cast<double>(Bins::count - 1);
  for (std::size_t i = 0; i < count; ++i) {
    const double at = 1.0 + (values[i] - lowest) * bins_per_unit;
    const double not_below = at > 0.0 ? at : 0.0;
    bins[i] = static_cast<std::int32_t>(not_below < last ? not_below : last);
  }
}

}  // namespace

std::size_t Bins::of(double value) const {
  std::int32_t bin = 0;
  find_bins(&value, &bin, 1, lowest_, bins_per_unit_);
  return static_cast<std::size_t>(bin);
}

void Bins::of(std::span<const double> values, std::span<std::int32_t> bins) const {
  assert(values.size() == bins.size());
  find_bins(values.data(), bins.data(), values.size(), lowest_, bins_per_unit_);
}

BinnedSamples::BinnedSamples(const Bins& bins, std::span<const std::uint8_t> keep)
    : bins_(&bins), keep_(keep), counts_(Bins::count) {}

void BinnedSamples::add(std::span<const double> values) {
  std::array<std::int32_t, RandomStream::max_fill> bins;
  assert(values.size() <= bins.size());
  bins_->of(values, std::span(bins).first(values.size()));
  if (kept_.size() < kept_count_ + values.size())
    kept_.resize(std::max(2 * kept_.size(), kept_count_ + values.size()));
  // Every value is written; only a kept one moves the end on. No branch to guess wrong.
  double* const kept = kept_.data();
  std::size_t end = kept_count_;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const auto bin = static_cast<std::size_t>(bins[i]);
    ++counts_[bin];
    kept[end] = values[i];
    end += keep_[bin];
  }
  kept_count_ = end;
}

std::vector<RankPlace> places_of(std::span<const std::uint64_t> ranks, std::span<const BinnedSamples> parts) {
  std::vector<std::uint64_t> below(Bins::count + 1);
  for (const BinnedSamples& part : parts)
    for (std::size_t bin = 0; bin < Bins::count; ++bin)
      below[bin + 1] += part.counts()[bin];
  for (std::size_t bin = 0; bin < Bins::count; ++bin)
    below[bin + 1] += below[bin];

  std::vector<RankPlace> places;
  for (const std::uint64_t rank : ranks) {
    assert(rank < below.back());
    const auto next = std::upper_bound(below.begin(), below.end(), rank);
    const auto bin = static_cast<std::size_t>(next - below.begin()) - 1;
    places.push_back({bin, rank - below[bin]});
  }
  return places;
}

std::vector<double> values_at(std::span<const RankPlace> places, std::span<const BinnedSamples> parts,
                              const Bins& bins) {
  std::vector<std::vector<double>> members(Bins::count);
  std::vector<std::uint8_t> wanted(Bins::count);
  for (const RankPlace& place : places)
    wanted[place.bin] = 1;
  for (const BinnedSamples& part : parts)
    for (const double value : part.kept())
      if (const std::size_t bin = bins.of(value); wanted[bin] != 0) members[bin].push_back(value);

  std::vector<double> values;
  for (const RankPlace& place : places) {
    std::vector<double>& in_bin = members[place.bin];
    assert(place.within < in_bin.size());
    const auto nth = in_bin.begin() + static_cast<std::ptrdiff_t>(place.within);
    std::nth_element(in_bin.begin(), nth, in_bin.end());
    values.push_back(*nth);
  }
  return values;
}

std::vector<std::uint8_t> bins_to_keep(std::span<const double> sorted_pilot,
                                       std::span<const double> probabilities, const Bins& bins) {
  std::vector<std::uint8_t> keep(Bins::count);
  const auto n = static_cast<double>(sorted_pilot.size());
  for (const double p : probabilities) {
    const double reach = 5 * std::sqrt(n * p * (1 - p)) + 1;
    const double from = n * p - reach;
    const double to = n * p + reach;
    const std::size_t first = from < 0 ? 0 : bins.of(sorted_pilot[static_cast<std::size_t>(from)]);
    const std::size_t last =
        to >= n - 1 ? Bins::count - 1 : bins.of(sorted_pilot[static_cast<std::size_t>(to)]);
    for (std::size_t bin = first; bin <= last; ++bin)
      keep[bin] = 1;
  }
  return keep;
}

}  // namespace pumpwright
