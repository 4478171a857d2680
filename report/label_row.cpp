#include "report/label_row.h"

#include <algorithm>
#include <numeric>

namespace pumpwright::report {
namespace {

constexpr double between = 7;  // clear space beside a name
constexpr double row_gap = 5;

// Least distance between the centres of names i and i+1 when they are dealt to `rows` rows in turn.
std::vector<double> gaps_for(const std::vector<LabelWish>& wishes, std::size_t rows) {
  const std::size_t n = wishes.size();
  std::vector<double> gaps(n, 0);
  for (std::size_t i = 0; i + 1 < n; ++i) {
    if (rows == 1) {
      gaps[i] = (wishes[i].width + wishes[i + 1].width) / 2 + between;
      continue;
    }
    // A leader to a farther row must clear the names of the nearer ones on both sides.
    gaps[i] = std::max(wishes[i].width, wishes[i + 1].width) / 2 + between / 2;
    for (std::size_t back = 1; back < rows - 1 && back <= i; ++back)
      gaps[i] = std::max(gaps[i], wishes[i - back].width / 2 / double(back) + between / 2);
  }
  return gaps;
}

}  // namespace

std::vector<double> spread_apart(const std::vector<double>& wanted, const std::vector<double>& gaps) {
  // With the gaps taken off, the answer is the isotonic regression of what is left (pool adjacent violators).
  struct Block {
    double sum = 0;
    double count = 0;
    double mean() const { return sum / count; }
  };
  std::vector<Block> blocks;
  std::vector<double> offset(wanted.size(), 0);
  for (std::size_t i = 1; i < wanted.size(); ++i)
    offset[i] = offset[i - 1] + gaps[i - 1];
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    blocks.push_back({wanted[i] - offset[i], 1});
    while (blocks.size() > 1 && blocks[blocks.size() - 2].mean() > blocks.back().mean()) {
      const Block last = blocks.back();
      blocks.pop_back();
      blocks.back().sum += last.sum;
      blocks.back().count += last.count;
    }
  }
  std::vector<double> out;
  for (const Block& block : blocks)
    for (int k = 0; k < static_cast<int>(block.count); ++k)
      out.push_back(block.mean() + offset[out.size()]);
  return out;
}

LabelRow place_labels(const std::vector<LabelWish>& wishes, std::pair<double, double> limits) {
  LabelRow row;
  const std::size_t n = wishes.size();
  if (n == 0) return row;
  std::vector<double> gaps;
  std::size_t rows = 0;
  double taken = 0;
  do {
    gaps = gaps_for(wishes, ++rows);
    taken = std::accumulate(gaps.begin(), gaps.end(), 0.0) + (wishes.front().width + wishes.back().width) / 2;
  } while (taken > limits.second - limits.first && rows < 2);
  std::vector<double> wanted;
  wanted.reserve(wishes.size());
  for (const LabelWish& wish : wishes)
    wanted.push_back(wish.x);
  std::vector<double> x = spread_apart(wanted, gaps);
  // Push in from both limits; what does not fit at all stays spaced and is centred.
  double edge = limits.first + wishes[0].width / 2;
  for (std::size_t i = 0; i < n; ++i) {
    x[i] = std::max(x[i], edge);
    edge = x[i] + gaps[i];
  }
  edge = limits.second - wishes[n - 1].width / 2;
  for (std::size_t i = n; i-- > 0;) {
    x[i] = std::min(x[i], edge);
    if (i > 0) edge = x[i] - gaps[i - 1];
  }
  std::vector<double> heights(rows, 0);
  for (std::size_t i = 0; i < n; ++i)
    heights[i % rows] = std::max(heights[i % rows], wishes[i].height);
  for (std::size_t i = 0; i < n; ++i) {
    const double nearer =
        std::accumulate(heights.begin(), heights.begin() + static_cast<std::ptrdiff_t>(i % rows), 0.0) +
        row_gap * double(i % rows);
    row.spots.push_back({x[i], x[i], nearer, wishes[i].width, wishes[i].height});
  }
  row.height = std::accumulate(heights.begin(), heights.end(), 0.0) + row_gap * double(rows - 1);
  return row;
}

}  // namespace pumpwright::report
