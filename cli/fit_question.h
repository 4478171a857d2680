// What `pumpwright fit` was asked, and what it found.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalog/source.h"
#include "cli/fit_size.h"
#include "engine/assembly/interference.h"

namespace pumpwright {

// What a hub and its shaft are made of, and where that is known from.
struct FitMaterial {
  std::string name;
  ElasticMaterial elastic;
  Expansion expansion;
  std::string source;
};

// For a fit with interference: how hard the hub sits.
struct PressQuestion {
  Length hub_outside;
  Length shaft_bore;
  Length length;
  FitMaterial hub;
  FitMaterial shaft;
  double friction = 0.12;
  Length working_clearance;  // room to slide the warm hub on
  Temperature room;
};

struct FitQuestion {
  FitSize shaft;
  FitSize bore;
  std::optional<FitKind> wanted;  // clearance or interference
  std::optional<PressQuestion> press;
};

// State at one interference.
struct PressFinding {
  Length interference;
  PressFitState state;
  Temperature hub_temperature;
};

struct FitFinding {
  FitRange range;                       // of two measured sizes: ± 2 standard uncertainties
  std::optional<MeasuredFit> measured;  // when both sizes were measured
  std::vector<PressFinding> press;      // at the smallest (when there is any) and the largest interference
  std::string verdict;                  // "pass", "fail" or "unproven"; empty when no kind was wanted
};

FitFinding answer(const FitQuestion& question);

std::string fit_text(const FitQuestion& question, const FitFinding& finding, bool colour);
std::string fit_json(const FitQuestion& question, const FitFinding& finding);

}  // namespace pumpwright
