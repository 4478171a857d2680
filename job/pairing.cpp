#include "job/pairing.h"

#include <algorithm>

#include <fmt/format.h>

#include "job/service_wording.h"

namespace pumpwright::job {
namespace {

Limit rule_from(std::string id, const Source& source) {
  Limit rule;
  rule.id = std::move(id);
  rule.rank = source.obtained == Obtained::common_practice ? Rank::common_practice : Rank::standard;
  rule.source = source;
  return rule;
}

FoundPairing unknown(Text things) {
  return {{Goes::unknown, std::move(things), {}, {}}, std::nullopt};
}

Text name_of(const Row& row) {
  return {std::string(row.text("name")), std::string(row.text("name_es"))};
}

// --- lubricant and elastomer ---

struct LubricantFinding {
  Goes goes = Goes::unknown;
  std::optional<Limit> rule;
};

const char* flag_for(std::string_view family) {
  if (family == "petroleum") return "petroleum_grease";
  if (family == "silicone") return "silicone_grease";
  return nullptr;
}

// Of the cures the name may mean, the one that stands least decides.
LubricantFinding touches(const Row& lubricant, const std::vector<const Row*>& elastomers) {
  const char* flag = flag_for(lubricant.text("family"));
  if (elastomers.empty()) return {};
  if (flag == nullptr)  // water and glycol: what the lubricants table says
    return {Goes::together, rule_from("lubricants/" + lubricant.id(), lubricant.source())};
  const auto refuses = [&](const Row* row) { return row->flag(flag) == false; };
  const auto at = std::find_if(elastomers.begin(), elastomers.end(), refuses);
  const Row& decides = at == elastomers.end() ? *elastomers.front() : **at;
  const Value* cell = decides.value(flag);
  if (cell == nullptr) return {};
  return {at == elastomers.end() ? Goes::together : Goes::apart,
          rule_from("elastomers/" + decides.id(), *cell->source)};
}

// Every lubricant of the table that may touch the elastomer, in its order.
Text lubricants_for(const Catalog& catalog, const std::vector<const Row*>& elastomers) {
  Text out;
  for (const auto& row : catalog.table("lubricants")->rows) {
    if (touches(row, elastomers).goes != Goes::together) continue;
    const char* between = out.en.empty() ? "" : "; ";
    const Text name = name_of(row);
    out.en += between + name.en;
    out.es += between + name.es;
  }
  return out;
}

FoundPairing lubricant_and_elastomer(const MakeUp& m, const Catalog& catalog) {
  const Row* lubricant = catalog.find("lubricants", m.seal.lubricant);
  const Text name = lubricant == nullptr ? Text{m.seal.lubricant, m.seal.lubricant} : name_of(*lubricant);
  const Text things{fmt::format("{} on {}", name.en, m.seal.elastomer),
                    fmt::format("{} en {}", name.es, m.seal.elastomer)};
  const auto elastomers = elastomers_named(catalog, m.seal.elastomer);
  if (lubricant == nullptr) return unknown(things);
  LubricantFinding found = touches(*lubricant, elastomers);
  if (found.goes == Goes::unknown) return unknown(things);
  FoundPairing out{{found.goes, things, {}, {}}, std::move(found.rule)};
  if (found.goes == Goes::together) return out;
  out.pairing.why = {
      fmt::format("{} swells and softens in {}; a bellows or ring that it has touched is scrap.",
                  m.seal.elastomer, name.en),
      fmt::format("{} se hincha y ablanda con {}; un fuelle o junta que lo ha tocado es desecho.",
                  m.seal.elastomer, name.es)};
  const Text others = lubricants_for(catalog, elastomers);
  if (!others.empty())
    out.pairing.instead = {"Use instead: " + others.en + ".", "Usar en su lugar: " + others.es + "."};
  return out;
}

// --- liquid and elastomer ---

FoundPairing liquid_and_elastomer(const MakeUp& m, const Catalog& catalog) {
  const Text liquid = wording::liquid_title(m.service.fluid);
  const Text things{fmt::format("{} in {}", m.seal.elastomer, liquid.en),
                    fmt::format("{} en {}", m.seal.elastomer, liquid.es)};
  const Table* table = catalog.table("liquid-elastomers");
  if (table == nullptr) return unknown(things);
  const Row* decides = nullptr;
  for (const auto* elastomer : elastomers_named(catalog, m.seal.elastomer)) {
    const Row* row = table->find(m.service.fluid + " / " + elastomer->id());
    if (row == nullptr) return unknown(things);
    if (decides == nullptr || row->flag("suits") == false) decides = row;
  }
  if (decides == nullptr) return unknown(things);
  const bool suits = *decides->flag("suits");
  FoundPairing out{{suits ? Goes::together : Goes::apart, things, {}, {}},
                   rule_from("liquid-elastomers/" + decides->id(), decides->source())};
  if (!suits)
    out.pairing.why = {fmt::format("{} does not last in {}.", m.seal.elastomer, liquid.en),
                       fmt::format("{} no resiste en {}.", m.seal.elastomer, liquid.es)};
  return out;
}

// --- the two faces ---

FoundPairing ring_and_seat(const MakeUp& m, const Catalog& catalog) {
  const Text things{fmt::format("ring {} on seat {}", m.seal.ring, m.seal.seat),
                    fmt::format("anillo {} sobre asiento {}", m.seal.ring, m.seal.seat)};
  const Row* row = face_pair_of(m.seal, catalog);
  if (row == nullptr) return unknown(things);
  return {{Goes::together, things, {}, {}}, rule_from("face-pairs/" + row->id(), row->source())};
}

// --- handed parts ---

Text turning_words(Rotation rotation) {
  return rotation == Rotation::clockwise
             ? Text{"clockwise seen from the impeller end", "a derechas visto desde el lado del impulsor"}
             : Text{"counter-clockwise seen from the impeller end",
                    "a izquierdas visto desde el lado del impulsor"};
}

Text hand_words(Hand hand) {
  return hand == Hand::left ? Text{"left-hand", "a izquierdas"} : Text{"right-hand", "a derechas"};
}

// A right hand needs a shaft that turns counter-clockwise seen from the impeller end, a left hand the other
// way. Of a screw, because what holds the impeller back then drives it in. Of a coil that drives by its grip
// on the sleeve, because the sleeve then winds it tighter: its grip is at the impeller, its other end drags
// on the face.
FoundPairing handed(Hand hand, const MakeUp& m, const char* id, const Source& source, const Text& part,
                    const Text& otherwise) {
  const Text way = m.driver.rotation
                       ? turning_words(*m.driver.rotation)
                       : Text{"a turning direction nobody wrote down", "un sentido de giro que nadie anotó"};
  const Text kind = hand_words(hand);
  const Text things{fmt::format("{} {}, turning {}", kind.en, part.en, way.en),
                    fmt::format("{} {}, girando {}", part.es, kind.es, way.es)};
  if (!m.driver.rotation) return unknown(things);
  const Hand needed = *m.driver.rotation == Rotation::clockwise ? Hand::left : Hand::right;
  FoundPairing out{{hand == needed ? Goes::together : Goes::apart, things, {}, {}}, rule_from(id, source)};
  if (hand == needed) return out;
  const Text wanted = hand_words(needed);
  out.pairing.why = otherwise;
  out.pairing.instead = {
      fmt::format("Fit a {} one, or prove the turning direction again on the bare motor.", wanted.en),
      fmt::format("Montar uno {}, o comprobar de nuevo el giro con el motor solo.", wanted.es)};
  return out;
}

FoundPairing coil_and_rotation(const MakeUp& m) {
  const Text part{"coil", "muelle"};
  if (!m.seal.coil)
    return unknown({"a coil whose hand nobody wrote down", "un muelle cuyo sentido nadie anotó"});
  return handed(
      *m.seal.coil, m, "coil-hand/derived",
      {"Geometry of a coil that drives by its grip; EN 12756 designates a seal for clockwise rotation, seen "
       "from the seat, as R",
       "", "", Obtained::common_practice, "seat on the motor's side of the head"},
      part,
      {"This direction unwinds the coil: it slips on the sleeve and the faces stop turning.",
       "Este sentido desenrolla el muelle: patina en el manguito y las caras dejan de girar."});
}

FoundPairing fastener_and_rotation(const MakeUp& m) {
  return handed(
      m.fastener->hand, m, "fastener-hand/derived",
      {"Pump shop practice: what holds the impeller back must tighten its fastener", "", "",
       Obtained::common_practice, ""},
      {"impeller fastener", "tornillo del impulsor"},
      {"This direction unscrews the fastener under load.", "Este sentido afloja el tornillo bajo carga."});
}

}  // namespace

std::vector<const Row*> elastomers_named(const Catalog& catalog, const std::string& name) {
  std::vector<const Row*> out;
  const Table* table = catalog.table("elastomers");
  if (table == nullptr) return out;
  for (const auto& row : table->rows)
    if (row.id() == name || row.id().rfind(name + " ", 0) == 0) out.push_back(&row);
  return out;
}

const Row* face_pair_of(const Seal& seal, const Catalog& catalog) {
  const Row* row = catalog.find("face-pairs", seal.ring + " / " + seal.seat);
  return row != nullptr ? row : catalog.find("face-pairs", seal.seat + " / " + seal.ring);
}

FoundPairing find_pairing(Pair pair, const MakeUp& make_up, const Catalog& catalog) {
  switch (pair) {
    case Pair::lubricant_elastomer:
      return lubricant_and_elastomer(make_up, catalog);
    case Pair::liquid_elastomer:
      return liquid_and_elastomer(make_up, catalog);
    case Pair::ring_seat:
      return ring_and_seat(make_up, catalog);
    case Pair::coil_rotation:
      return coil_and_rotation(make_up);
    case Pair::fastener_rotation:
      return fastener_and_rotation(make_up);
  }
  return {};
}

}  // namespace pumpwright::job
