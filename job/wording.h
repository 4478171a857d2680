// Every sentence the judge says, in every language, in one place.
#pragma once

#include <string>

#include "engine/metrology/decision.h"
#include "engine/metrology/sweep.h"
#include "engine/quantity/any_quantity.h"
#include "job/judgement.h"
#include "job/text.h"

namespace pumpwright::job::wording {

Text suspect(const std::string& reading, double place_deg, bool rotating);
Text missed_tir(std::size_t places, Length bound, const Unit& unit);
Text closure(Length closure, const Unit& unit);
Text unexplained_scatter();
Text high_spot_unknown();
Text two_readings_stand(std::size_t count);
Text end_float(Length end_float, const Unit& unit);
Text temperature_corrected(Length correction, const Unit& unit);
Text preload_range(double smallest_share, double largest_share);
Text missing_input(const Text& name);

// How a chain that is off is put right.
struct Correction {
  Length off;                   // of the sum from where it should be; negative: too short
  Text with;                    // "shim on the shaft's shoulder"
  std::optional<Length> there;  // how thick one is there already
  Text part;                    // the part that is to blame; empty when no single one is
  Length part_off;              // of that part from its own middle
};
Text correction(const Correction& c, const Unit& unit);

// What would settle an unproven verdict; empty when nothing that is known would.
Text settle(Reason reason, const Settling<double>& settling, const Unit& unit);

Text step_open(const Text& title);
Text hold_open(const Text& title);

}  // namespace pumpwright::job::wording
