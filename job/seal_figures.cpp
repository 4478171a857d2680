#include "job/seal_figures.h"

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
                      *row->value("elastic_modulus")->source};
}

const Row* pair_row(const Catalog& catalog, const Seal& seal) {
  const Row* row = catalog.find("face-pairs", seal.ring + " / " + seal.seat);
  return row != nullptr ? row : catalog.find("face-pairs", seal.seat + " / " + seal.ring);
}

}  // namespace

std::optional<SealFigures> find_seal_figures(const MakeUp& make_up, const Catalog& catalog) {
  const auto ring = material(catalog, make_up.seal.ring);
  const auto seat = material(catalog, make_up.seal.seat);
  if (!ring || !seat) return std::nullopt;
  SealFigures out{*ring, *seat, {}, {}};
  if (const Row* pair = pair_row(catalog, make_up.seal)) {
    out.friction = pair->number("friction");
    out.friction_source = pair->source();
  }
  return out;
}

}  // namespace pumpwright::job
