#include "tests/property/engine/assembly/true_running_figures.h"

#include <algorithm>
#include <random>

#include <fmt/format.h>

namespace pumpwright::testing {
namespace {

using true_running::Fault;
using true_running::NamedError;
using true_running::Rotating;
using true_running::Standing;

// Cases that were not looked at while the beliefs were set (those were numbered from 0 and from 1 000 000).
constexpr std::uint64_t first_single = 40'000'000;
constexpr std::uint64_t first_pair = 50'000'000;

template <class Chain>
std::vector<NamedError<Chain>> errors_of(const true_running::Hypothesis<Chain>& h) {
  std::vector<NamedError<Chain>> out;
  for (const auto& b : h.blames)
    out.push_back({b.fault, b.station});
  return out;
}

template <class Chain>
bool same(const NamedError<Chain>& e, const true_running::Blame<Chain>& b) {
  return e.fault == b.fault && e.station == b.station;
}

// Counts the planted vectors inside the regions that the planted assumption states, whether it came out best
// or not.
template <class Chain>
void count_regions(const SyntheticCase<Chain>& c, const true_running::Attribution<Chain>& a, Count& count) {
  for (std::size_t i = 0; i < c.planted.size(); ++i) {
    ++count.regions;
    for (const auto& h : a.hypotheses) {
      if (h.blames.size() != c.planted.size()) continue;
      const bool all = std::all_of(c.planted.begin(), c.planted.end(), [&](const auto& e) {
        return std::any_of(h.blames.begin(), h.blames.end(),
                           [&](const auto& b) { return same<Chain>(e, b); });
      });
      if (!all) continue;
      for (const auto& b : h.blames)
        if (same<Chain>(c.planted[i], b) && b.region_contains(c.planted_size[i])) ++count.in_region;
    }
  }
}

template <class Chain>
std::vector<std::vector<NamedError<Chain>>> nothing_and_each(const SyntheticShop& shop) {
  std::vector<std::vector<NamedError<Chain>>> out(1);
  for (const auto& e : plantable<Chain>(shop))
    out.push_back({e});
  return out;
}

}  // namespace

Count& Count::operator+=(const Count& o) {
  cases += o.cases;
  right += o.right;
  right_alone += o.right_alone;
  decided += o.decided;
  decided_wrong += o.decided_wrong;
  in_region += o.in_region;
  regions += o.regions;
  return *this;
}

Count Figures::all() const {
  Count sum;
  for (const auto& [name, count] : planted)
    sum += count;
  return sum;
}

template <class Chain>
std::string name_of(const std::vector<NamedError<Chain>>& errors) {
  if (errors.empty()) return "nothing";
  std::string out;
  for (const auto& e : errors) {
    if (!out.empty()) out += " + ";
    out += true_running::word_for(e.fault);
    if (!e.station.empty()) out += ": " + e.station;
  }
  return out;
}

template <class Chain>
bool score(std::uint64_t number, const std::vector<NamedError<Chain>>& planted, const SyntheticShop& shop,
           Figures& figures) {
  const auto c = synthetic_case<Chain>(number, planted, shop);
  const std::span<const true_running::Station<Chain>> stations(c.stations);
  const auto a = true_running::attribute<Chain>(stations, c.geometry);
  const auto named = errors_of(a.best());
  const bool right = true_running::read_alike<Chain>(stations, c.geometry, planted, named);
  const std::string where = std::is_same_v<Chain, Rotating> ? "rotating: " : "standing: ";
  Count& count = figures.planted[where + name_of<Chain>(planted)];
  ++count.cases;
  count.right += right;
  count.right_alone += right && std::count_if(a.hypotheses.begin(), a.hypotheses.end(),
                                              [](const auto& h) { return h.looks_like_the_best; }) == 1;
  count.decided += a.decided;
  count.decided_wrong += a.decided && !right;
  count_regions(c, a, count);
  if (!right) ++figures.named[where + name_of<Chain>(planted)][name_of<Chain>(named)];
  return right;
}

Figures single_faults(int cases, const SyntheticShop& shop) {
  const auto rotating = nothing_and_each<Rotating>(shop);
  const auto standing = nothing_and_each<Standing>(shop);
  const std::size_t kinds = rotating.size() + standing.size();
  Figures out;
  for (int i = 0; i < cases; ++i) {
    const auto number = first_single + static_cast<std::uint64_t>(i);
    const std::size_t kind = static_cast<std::size_t>(i) % kinds;
    if (kind < rotating.size())
      score<Rotating>(number, rotating[kind], shop, out);
    else
      score<Standing>(number, standing[kind - rotating.size()], shop, out);
  }
  return out;
}

TwoFaults two_faults(int cases, const SyntheticShop& shop) {
  const auto of_rotating = true_running::faults_of(Rotating{});
  const auto of_standing = true_running::faults_of(Standing{});
  const std::size_t all = of_rotating.size() + of_standing.size();
  std::mt19937_64 dice(first_pair);
  TwoFaults out;
  for (int i = 0; i < cases; ++i) {
    const std::size_t first = dice() % all;
    const std::size_t second = (first + 1 + dice() % (all - 1)) % all;
    std::vector<NamedError<Rotating>> rotating;
    std::vector<NamedError<Standing>> standing;
    for (const std::size_t k : {first, second}) {
      if (k < of_rotating.size())
        rotating.push_back({of_rotating[k].fault, ""});
      else
        standing.push_back({of_standing[k - of_rotating.size()].fault, ""});
    }
    const auto number = first_pair + static_cast<std::uint64_t>(i);
    Figures figures;
    bool right = true;
    if (!rotating.empty()) right = score<Rotating>(number, rotating, shop, figures) && right;
    if (!standing.empty()) right = score<Standing>(number, standing, shop, figures) && right;
    Count count = figures.all();
    count.cases = 1;
    count.right = right;
    out.anywhere += count;
    if (rotating.empty() || standing.empty()) out.same_chain += count;
  }
  return out;
}

std::string confusion_table(const Figures& figures) {
  std::string out =
      "| planted | cases | right | of these nothing reads the same | decided | decided wrong | in 95 % "
      "region | when "
      "wrong, named |\n|---|---|---|---|---|---|---|---|\n";
  const auto percent = [](int part, int of) {
    return of == 0 ? "-" : fmt::format("{:.1f} %", 100.0 * part / of);
  };
  for (const auto& [name, c] : figures.planted) {
    std::vector<std::pair<int, std::string>> wrong;
    if (const auto found = figures.named.find(name); found != figures.named.end())
      for (const auto& [other, times] : found->second)
        wrong.emplace_back(-times, other);
    std::sort(wrong.begin(), wrong.end());
    std::string list;
    for (std::size_t i = 0; i < std::min<std::size_t>(3, wrong.size()); ++i)
      list += fmt::format("{}{} ({})", i == 0 ? "" : "; ", wrong[i].second, -wrong[i].first);
    out +=
        fmt::format("| {} | {} | {} | {} | {} | {} | {} | {} |\n", name, c.cases, percent(c.right, c.cases),
                    percent(c.right_alone, c.right), percent(c.decided, c.cases),
                    percent(c.decided_wrong, c.decided), percent(c.in_region, c.regions), list);
  }
  return out;
}

template std::string name_of<Rotating>(const std::vector<NamedError<Rotating>>&);
template std::string name_of<Standing>(const std::vector<NamedError<Standing>>&);
template bool score<Rotating>(std::uint64_t, const std::vector<NamedError<Rotating>>&, const SyntheticShop&,
                              Figures&);
template bool score<Standing>(std::uint64_t, const std::vector<NamedError<Standing>>&, const SyntheticShop&,
                              Figures&);

}  // namespace pumpwright::testing
