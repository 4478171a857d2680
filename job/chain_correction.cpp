#include "job/chain_correction.h"

#include <algorithm>

#include "engine/seal/working_length.h"
#include "job/wording.h"

namespace pumpwright::job {
namespace {

struct Bounds {
  double lower, upper;

  double middle() const { return (lower + upper) / 2; }
  Length half() const { return metres((upper - lower) / 2); }
};

std::optional<Bounds> bounds_of(const Check& check) {
  if (check.limits.empty()) return std::nullopt;
  const Limit& limit = check.limits.front();
  if (!limit.lower || !limit.upper) return std::nullopt;
  return Bounds{limit.lower->si, limit.upper->si};
}

// A link of the chain as its own limit draws it and its reading found it; without either nobody blames it.
seal::LengthPart part_of(const ChainPart& part, const ChainCorrection& correction, const JudgeContext& in) {
  seal::LengthPart out;
  out.drawing.name = part.name.en;
  out.drawing.coefficient = part.coefficient;
  out.is_shim = part.check == correction.check;
  const Check* own = in.snapshot.plan.find(part.check);
  const auto bounds = own == nullptr ? std::nullopt : bounds_of(*own);
  const auto value = own == nullptr ? std::nullopt : mean_of(*own, in);
  if (value) out.measured = Measured<Length>{metres(value->value_si), metres(value->u_si)};
  out.drawing.nominal = bounds ? metres(bounds->middle()) : value ? metres(value->value_si) : metres(0);
  if (bounds) {
    out.drawing.lower_deviation = -bounds->half();
    out.drawing.upper_deviation = bounds->half();
  }
  return out;
}

const Text& name_of(const std::string& english, const Check& check) {
  return std::find_if(check.chain.begin(), check.chain.end(),
                      [&](const ChainPart& p) { return p.name.en == english; })
      ->name;
}

}  // namespace

std::optional<Text> chain_correction(const Check& check, const JudgedReading& sum, const JudgeContext& in,
                                     const Unit& unit) {
  const auto bounds = bounds_of(check);
  if (!bounds || !sum.value || !check.correction) return std::nullopt;
  if (bounds->lower <= sum.value->si() && sum.value->si() <= bounds->upper) return std::nullopt;
  std::vector<seal::LengthPart> parts;
  parts.reserve(check.chain.size());
  for (const auto& part : check.chain)
    parts.push_back(part_of(part, *check.correction, in));
  const Length off = metres(sum.value->si() - bounds->middle());
  const auto found = seal::length_correction(parts, -bounds->half(), bounds->half(), off);
  wording::Correction words{off, check.correction->name, {}, {}, {}};
  const Check* shim = in.snapshot.plan.find(check.correction->check);
  if (const auto there = shim == nullptr ? std::nullopt : mean_of(*shim, in))
    words.there = metres(there->value_si);
  if (found.part) {
    words.part = name_of(*found.part, check);
    words.part_off = found.part_deviation;
  }
  return wording::correction(words, unit);
}

}  // namespace pumpwright::job
