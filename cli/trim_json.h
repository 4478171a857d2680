// A planned cut as JSON: `pumpwright trim` prints it, `pumpwright performance` as its remedy.
#pragma once

#include "cli/json_values.h"
#include "engine/hydraulics/trim.h"

namespace pumpwright {

// {"<name>": value, "<name>_u": standard uncertainty}, put into `json`.
inline void put_figure(OrderedJson& json, const std::string& name, const std::string& unit,
                       const hydraulics::Figure& figure) {
  json[name + unit] = json_number(figure.value);
  json[name + "_u" + unit] = json_number(figure.u);
}

OrderedJson shape_json(const hydraulics::SpecificSpeed& shape);
OrderedJson trim_json(const hydraulics::TrimPlan& plan);

}  // namespace pumpwright
