// Exact order statistics of more samples than one would like to store.
//
// The value range is cut into bins once, from a small pilot set. While samples stream past, all are counted
// and only those of the bins the wanted ranks are expected in are kept. When the counts then show a rank to
// lie in a bin that was not kept, the samples are made once more with that bin kept: the answer never rests
// on the expectation.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace pumpwright {

// Maps a value to its bin; never decreasing in the value, so that bins are in order.
class Bins {
 public:
  static constexpr std::size_t inner = 4096;
  static constexpr std::size_t count = inner + 2;  // one below and one above the pilot's range

  // `lowest` <= `highest`, both finite.
  Bins(double lowest, double highest);

  // The value must be finite.
  std::size_t of(double value) const;

  // bins[i] = of(values[i]), for at most RandomStream::max_fill values.
  void of(std::span<const double> values, std::span<std::int32_t> bins) const;

 private:
  double lowest_;
  double bins_per_unit_;
};

// Counts of one part of the samples, and its samples of the bins marked in `keep`.
class BinnedSamples {
 public:
  // `bins` and `keep` (Bins::count marks, 0 or 1) must outlive this object.
  BinnedSamples(const Bins& bins, std::span<const std::uint8_t> keep);

  // At most RandomStream::max_fill values a call.
  void add(std::span<const double> values);

  std::span<const std::uint32_t> counts() const { return counts_; }
  std::span<const double> kept() const { return std::span(kept_).first(kept_count_); }

 private:
  const Bins* bins_;
  std::span<const std::uint8_t> keep_;
  std::vector<std::uint32_t> counts_;
  std::vector<double> kept_;
  std::size_t kept_count_ = 0;
};

// Where a rank lies: its bin and its place within the bin's samples in order, from 0.
struct RankPlace {
  std::size_t bin = 0;
  std::uint64_t within = 0;
};

// Places of `ranks` (from 0, below the number of samples), given the counts of all parts.
std::vector<RankPlace> places_of(std::span<const std::uint64_t> ranks, std::span<const BinnedSamples> parts);

// Values at the places; every place's bin must have been kept.
std::vector<double> values_at(std::span<const RankPlace> places, std::span<const BinnedSamples> parts,
                              const Bins& bins);

// Marks for the bins in which the ranks of `probabilities` are to be expected, judged by a sorted pilot set:
// the bins from 5 standard errors of the rank below to 5 above.
std::vector<std::uint8_t> bins_to_keep(std::span<const double> sorted_pilot,
                                       std::span<const double> probabilities, const Bins& bins);

}  // namespace pumpwright
