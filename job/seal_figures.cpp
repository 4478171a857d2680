#include "job/seal_figures.h"

#include "job/pairing.h"

namespace pumpwright::job {
namespace {

std::optional<FaceMaterial> material(const Catalog& catalog, const std::string& letter) {
  const Row* row = catalog.find("face-materials", letter);
  if (row == nullptr) return std::nullopt;
  return FaceMaterial{letter,
                      *row->pressure("elastic_modulus"),
                      *row->number("poisson"),
                      *row->expansion("expansion"),
                      *row->conductivity("conductivity"),
                      *row->density("density"),
                      *row->heat_capacity("heat_capacity"),
                      *row->value("elastic_modulus")->source};
}

std::optional<Temperature> weakest_limit(const MakeUp& make_up, const Catalog& catalog) {
  std::optional<Temperature> out;
  for (const auto* row : elastomers_named(catalog, make_up.seal.elastomer)) {
    const auto high = row->temperature("high");
    if (high && (!out || kelvin_of(*high) < kelvin_of(*out))) out = high;
  }
  return out;
}

}  // namespace

std::optional<SealFigures> find_seal_figures(const MakeUp& make_up, const Catalog& catalog) {
  const auto ring = material(catalog, make_up.seal.ring);
  const auto seat = material(catalog, make_up.seal.seat);
  if (!ring || !seat) return std::nullopt;
  SealFigures out{*ring, *seat, {}, {}, weakest_limit(make_up, catalog)};
  if (const Row* pair = face_pair_of(make_up.seal, catalog)) {
    out.friction = pair->number("friction");
    out.friction_source = pair->source();
  }
  return out;
}

}  // namespace pumpwright::job
