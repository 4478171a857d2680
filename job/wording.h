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

// What would settle an unproven verdict; empty when nothing that is known would.
Text settle(Reason reason, const Settling<double>& settling, const Unit& unit);

Text step_open(const Text& title);
Text hold_open(const Text& title);

}  // namespace pumpwright::job::wording
