// Why pumps come back, as the catalog has it: causes, what is looked for, and what each cause leaves behind.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "catalog/catalog.h"
#include "engine/reliability/cause_network.h"
#include "job/text.h"

namespace pumpwright::job {

struct CauseEntry {
  std::string id;  // "flashing"
  Text title;
  Text change;  // what to change in the next build
  Text owner;   // what the owner of the pump should change
};

struct FindingEntry {
  std::string id;    // "heat-checks"
  std::string part;  // where it is looked for: "faces", "elastomer", … "told", "numbers"
  Text title;
  Text look;          // how to look
  std::string check;  // of a job's plan, whose verdict says it; empty for most
};

class CauseTables {
 public:
  // From tables causes, cause-findings and cause-links. Throws BadInput for a catalog that lacks one, or
  // whose link names what is not there.
  static CauseTables from(const Catalog& catalog);

  const std::vector<CauseEntry>& causes() const { return causes_; }
  const std::vector<FindingEntry>& findings() const { return findings_; }
  const reliability::CauseInference& inference() const { return inference_; }

  // Its place in findings(); nothing for a word the catalog does not have.
  std::optional<std::size_t> finding(std::string_view id) const;

  // Who says that the cause brings the finding; null when nobody does.
  const Source* source_of(std::size_t cause, std::size_t finding) const;

 private:
  CauseTables(std::vector<CauseEntry> causes, std::vector<FindingEntry> findings,
              reliability::CauseNetwork network,
              std::map<std::pair<std::size_t, std::size_t>, Source> sources);

  std::vector<CauseEntry> causes_;
  std::vector<FindingEntry> findings_;
  reliability::CauseInference inference_;
  std::map<std::pair<std::size_t, std::size_t>, Source> sources_;
};

// What the words of cause-links' column how_often stand for: "usually" 0.85, "often" 0.6, "sometimes" 0.3,
// "seldom" 0.1. Our own estimate. Nothing for another word.
std::optional<double> strength_of(std::string_view how_often);

}  // namespace pumpwright::job
