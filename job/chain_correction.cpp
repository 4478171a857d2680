#include "job/chain_correction.h"

#include <cmath>

#include "job/wording.h"

namespace pumpwright::job {
namespace {

struct Bounds {
  double lower, upper;

  double middle() const { return (lower + upper) / 2; }
  bool hold(double value) const { return lower <= value && value <= upper; }
};

std::optional<Bounds> bounds_of(const Check& check) {
  if (check.limits.empty()) return std::nullopt;
  const Limit& limit = check.limits.front();
  if (!limit.lower || !limit.upper) return std::nullopt;
  return Bounds{limit.lower->si, limit.upper->si};
}

// How far a part is off the middle of its own limit, as it counts in the sum; nothing while it is inside.
std::optional<double> share_off(const ChainPart& part, const JudgeContext& in) {
  const Check* own = in.snapshot.plan.find(part.check);
  if (own == nullptr) return std::nullopt;
  const auto bounds = bounds_of(*own);
  const auto value = mean_of(*own, in);
  if (!bounds || !value || bounds->hold(value->value_si)) return std::nullopt;
  return part.coefficient * (value->value_si - bounds->middle());
}

// The part outside its own limit without whose error the sum would be inside.
const ChainPart* part_to_blame(const Check& check, double sum, const Bounds& bounds, const JudgeContext& in) {
  for (const auto& part : check.chain) {
    const auto off = share_off(part, in);
    if (off && bounds.hold(sum - *off)) return &part;
  }
  return nullptr;
}

}  // namespace

std::optional<Text> chain_correction(const Check& check, const JudgedReading& sum, const JudgeContext& in,
                                     const Unit& unit) {
  const auto bounds = bounds_of(check);
  if (!bounds || !sum.value || !check.correction || bounds->hold(sum.value->si())) return std::nullopt;
  const double off = sum.value->si() - bounds->middle();
  wording::Correction words{metres(off), check.correction->name, {}, {}, {}};
  const Check* shim = in.snapshot.plan.find(check.correction->check);
  if (const auto there = shim == nullptr ? std::nullopt : mean_of(*shim, in))
    words.there = metres(there->value_si);
  if (const ChainPart* part = part_to_blame(check, sum.value->si(), *bounds, in)) {
    words.part = part->name;
    words.part_off = metres(*share_off(*part, in) / part->coefficient);
  }
  return wording::correction(words, unit);
}

}  // namespace pumpwright::job
