#include "job/cause_wording.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "engine/quantity/format.h"

namespace pumpwright::job {
namespace {

using reliability::RankedCause;
using reliability::Seen;

constexpr std::size_t causes_weighed = 3;  // named when nothing can be told
constexpr std::size_t most_causes = 5, least_causes = 2, most_evidence = 8, most_next = 4;
constexpr double probability_worth_showing = 0.2;
constexpr double weight_worth_showing = 0.05;  // odds change by an eighth
constexpr double bits_worth_looking = 0.01;
constexpr int digits = 2;

void join(Text& list, const Text& next, bool last) {
  if (!list.en.empty()) {
    list.en += last ? " and " : ", ";
    list.es += last ? " y " : ", ";
  }
  list.en += next.en;
  list.es += next.es;
}

Text with_chance(const CauseTables& tables, const RankedCause& cause) {
  const Text& title = tables.causes()[cause.cause].title;
  const Text likely = probability_text(cause.probability);
  return {fmt::format("{} ({})", title.en, likely.en), fmt::format("{} ({})", title.es, likely.es)};
}

const RankedCause& ranked(const CauseFinding& finding, std::size_t cause) {
  const auto& all = finding.diagnosis.ranked;
  for (const auto& one : all)
    if (one.cause == cause) return one;
  return all.front();
}

Text list_of(const CauseTables& tables, const CauseFinding& finding, std::span<const std::size_t> causes) {
  Text list;
  for (std::size_t i = 0; i < causes.size(); ++i)
    join(list, with_chance(tables, ranked(finding, causes[i])), i + 1 == causes.size());
  return list;
}

bool anything_there(const CauseFinding& finding) {
  for (const Seen seen : finding.evidence)
    if (seen == Seen::present) return true;
  return false;
}

constexpr std::array<std::pair<std::string_view, std::pair<const char*, const char*>>, 9> parts{
    {{"faces", {"faces", "caras"}},
     {"elastomer", {"elastomer", "elastómero"}},
     {"seal-metal", {"seal's metal and sleeve", "metal del cierre y camisa"}},
     {"rubs", {"rub marks", "marcas de roce"}},
     {"impeller", {"impeller and casing", "impulsor y carcasa"}},
     {"bearings", {"bearings", "rodamientos"}},
     {"as-found", {"as found, before the strip", "como se halló, antes de desarmar"}},
     {"told", {"told by who ran it", "contado por quien la usó"}},
     {"numbers", {"by this job's numbers", "por los números de este trabajo"}}}};

}  // namespace

Text probability_text(double probability) {
  if (probability > 0.95) return {"over 95 %", "más del 95 %"};
  if (probability < 0.05) return {"under 5 %", "menos del 5 %"};
  const double twentieths = std::round(20 * probability);
  return {fmt::format("about {:.0f} %", 5 * twentieths), fmt::format("cerca del {:.0f} %", 5 * twentieths)};
}

Text headline_text(const CauseTables& tables, const CauseFinding& finding) {
  const auto& found = finding.diagnosis;
  if (finding.tells()) {
    const Text list = list_of(tables, finding, found.named);
    return {"Most likely: " + list.en, "Lo más probable: " + list.es};
  }
  if (!anything_there(finding))
    return {"Can not tell: nothing that points to a cause was found yet",
            "No se puede decir: aún no se halló nada que señale una causa"};
  std::vector<std::size_t> first;
  for (std::size_t i = 0; i < std::min(causes_weighed, found.ranked.size()); ++i)
    first.push_back(found.ranked[i].cause);
  const Text list = list_of(tables, finding, first);
  return {"Can not tell yet. It may be " + list.en, "Aún no se puede decir. Puede ser " + list.es};
}

std::span<const RankedCause> causes_to_show(const CauseFinding& finding) {
  const std::span all(finding.diagnosis.ranked);
  std::size_t count = 0;
  while (count < std::min(most_causes, all.size()) &&
         (count < least_causes || all[count].probability >= probability_worth_showing))
    ++count;
  return all.first(count);
}

std::span<const reliability::FindingWeight> evidence_to_show(const RankedCause& cause) {
  const std::span all(cause.evidence);
  std::size_t count = 0;
  while (count < std::min(most_evidence, all.size()) && std::abs(all[count].weight) >= weight_worth_showing)
    ++count;
  return all.first(count);
}

std::span<const reliability::NextFinding> next_to_show(const CauseFinding& finding) {
  const std::span all(finding.diagnosis.next);
  std::size_t count = 0;
  while (count < std::min(most_next, all.size()) && all[count].bits >= bits_worth_looking)
    ++count;
  return all.first(count);
}

Text part_text(std::string_view part) {
  for (const auto& [word, title] : parts)
    if (word == part) return {title.first, title.second};
  return {std::string(part), std::string(part)};
}

Text seen_text(const CauseFinding& finding, std::size_t which) {
  const bool there = finding.evidence[which] == Seen::present;
  Text text = there ? Text{"there", "está"} : Text{"not there", "no está"};
  if (finding.said_by[which] == SaidBy::check) {
    text.en += ", by a check of this job";
    text.es += ", por una comprobación de este trabajo";
  }
  if (finding.said_by[which] == SaidBy::width) {
    text.en += ", by the widths";
    text.es += ", por los anchos";
  }
  if (finding.said_by[which] == SaidBy::hardness) {
    text.en += ", by the hardness";
    text.es += ", por la dureza";
  }
  return text;
}

Text track_text(const CauseFinding& finding) {
  if (!finding.track) return {};
  const Unit& mm = unit_with_symbol("mm", Kind::length);
  const std::string off = format_significant(metres(std::abs(finding.track->excess.value())), mm, digits);
  const std::string doubt = format_significant(finding.track->expanded, mm, digits);
  if (finding.track->excess > finding.track->expanded)
    return {fmt::format("The faces moved {} ± {} across each other.", off, doubt),
            fmt::format("Las caras se movieron {} ± {} una sobre otra.", off, doubt)};
  if (finding.track->excess < -finding.track->expanded)
    return {fmt::format("The track is {} ± {} narrower than the face: the face was bent.", off, doubt),
            fmt::format("La huella es {} ± {} más estrecha que la cara: la cara se deformó.", off, doubt)};
  return {"The track is as wide as the face that made it: it ran true.",
          "La huella es tan ancha como la cara que la hizo: giró centrada."};
}

}  // namespace pumpwright::job
