#include "server/seal_map_view.h"

#include <nlohmann/json.hpp>

#include "engine/executor.h"
#include "job/seal_service.h"
#include "server/amount_json.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

// As fine as a drawing of a few hundred points shows.
constexpr std::size_t cells_each_way = 48;

// One letter a cell, and what it stands for.
char letter_of(seal::Condition condition) {
  switch (condition) {
    case seal::Condition::chamber_boils:
    case seal::Condition::face_boils:
      return 'b';
    case seal::Condition::too_small:
      return 's';
    case seal::Condition::by_ratio:
    case seal::Condition::by_difference:
      return 'e';
    case seal::Condition::opens:
      return 'o';
    case seal::Condition::unsolved:
      break;
  }
  return 'u';
}

json column_view(const seal::MapColumn& column) {
  std::string letters;
  for (const auto condition : column.conditions)
    letters += letter_of(condition);
  return letters;
}

template <class Quantity>
json range_view(Quantity lowest, Quantity here, Quantity highest) {
  return {{"lowest", amount_json(AnyQuantity(lowest))},
          {"here", amount_json(AnyQuantity(here))},
          {"highest", amount_json(AnyQuantity(highest))}};
}

json map_view(const job::SealService& service, seal::MapRequest request) {
  request.temperatures = cells_each_way;
  request.pressures = cells_each_way;
  SerialExecutor alone;
  json columns = json::array();
  for (const auto& column : seal::ConditionsMap(*service.liquid, request).all(alone))
    columns.push_back(column_view(column));
  return {{"temperature", range_view(request.coldest, service.state->temperature, request.hottest)},
          {"suction", range_view(request.lowest, service.state->suction, request.highest)},
          {"columns", columns}};
}

}  // namespace

json seal_map_view(const job::SealQuestion& question, const job::JobState& state) {
  const job::SealService service =
      job::seal_service({question.snapshot, state}, job::Asked::everything, question.length);
  json missing = json::array();
  for (const auto& text : service.missing)
    missing.push_back(text_json(text));
  const auto request = job::map_around(service);
  return {{"map", request ? map_view(service, *request) : json(nullptr)}, {"missing", missing}};
}

}  // namespace pumpwright::server
