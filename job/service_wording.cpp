#include "job/service_wording.h"

#include <fmt/format.h>

#include "engine/quantity/format.h"

namespace pumpwright::job::wording {
namespace {

std::string gauge_text(GaugePressure p, const Unit& unit) {
  return format_significant(AnyQuantity(p), unit, 3);
}

// A gauge pressure's unit is the one the suction was written in; absolute pressures are shown in its absolute
// twin.
const Unit& absolute_unit(const Unit& gauge) {
  return gauge.system == System::inch ? unit_with_symbol("psia", Kind::pressure_absolute)
                                      : unit_with_symbol("bar(a)", Kind::pressure_absolute);
}

std::string absolute_text(AbsolutePressure p, const Unit& gauge) {
  return format_significant(AnyQuantity(p), absolute_unit(gauge), 3);
}

Text judged_at_text(const SealService& s, const Unit& unit) {
  const std::string t = format_significant(AnyQuantity(*s.judged_at), unit, 3);
  if (s.judged_at_face)
    return {fmt::format("Judged at {}, the hottest place of the faces.", t),
            fmt::format("Juzgado a {}, el lugar más caliente de las caras.", t)};
  return {
      fmt::format(
          "Judged at {}, the liquid's own temperature: the faces run hotter, by how much is not known.", t),
      fmt::format(
          "Juzgado a {}, la temperatura del líquido: las caras están más calientes, no se sabe cuánto.", t)};
}

Text pressures_text(const SealService& s, const Unit& gauge) {
  const std::string low = absolute_text(s.chamber_low, gauge), high = absolute_text(s.chamber_high, gauge);
  const std::string at = low == high ? low : fmt::format("{} … {}", low, high);
  const std::string vapour = absolute_text(s.margin->vapour, gauge);
  return {fmt::format("Pressure at the seal {} (an estimate), vapour pressure {}.", at, vapour),
          fmt::format("Presión en el cierre {} (estimada), presión de vapor {}.", at, vapour)};
}

Text suction_text(const SealService& s, const Unit& gauge) {
  // Below the air's pressure it is no advice: the pump itself would not draw, and the seal would let air in.
  if (s.least_suction->value < pascals(0))
    return {"Against boiling, any suction pressure above that of the air would do.",
            "Contra la ebullición basta cualquier presión de aspiración por encima de la del aire."};
  const std::string least = gauge_text(*s.least_suction, gauge);
  return {fmt::format("A suction pressure of {} would do for the seal.", least),
          fmt::format("Una presión de aspiración de {} bastaría para el cierre.", least)};
}

}  // namespace

Text liquid_title(std::string_view fluid) {
  if (fluid == "water") return {"water", "agua"};
  if (fluid == "water-glycol") return {"water with glycol", "agua con glicol"};
  if (fluid == "sea-water") return {"sea water", "agua de mar"};
  return {std::string(fluid), std::string(fluid)};
}

Text service_temperature_missing() {
  return {"The service's temperature is not in the make-up.",
          "La temperatura de servicio no está en la configuración."};
}

Text suction_missing() {
  return {"The suction pressure is not in the make-up.",
          "La presión de aspiración no está en la configuración."};
}

Text liquid_unknown(const std::string& fluid) {
  return {fmt::format("Nothing is known here of {}: vapour pressure and viscosity are wanted.", fluid),
          fmt::format("Aquí no se sabe nada de {}: faltan presión de vapor y viscosidad.", fluid)};
}

Text glycol_strength_missing() {
  return {"Which glycol and how much of it is not in the make-up.",
          "Qué glicol y cuánto no está en la configuración."};
}

Text sheet_missing() {
  return {"The seal's sheet (face and balance diameters, spring) is not in the make-up.",
          "La hoja del cierre (diámetros de caras y de equilibrio, muelle) no está en la configuración."};
}

Text working_length_missing() {
  return {"The readings that make up the working length are not there yet.",
          "Aún faltan las lecturas que forman la longitud de trabajo."};
}

Text spring_missing() {
  return {"Spring force and rate at the nominal working length are not all in the make-up.",
          "La fuerza y la constante del muelle a la longitud nominal no están todas en la configuración."};
}

Text face_materials_missing() {
  return {"The faces' materials are not in the make-up, or their letters are not in the table.",
          "Los materiales de las caras no están en la configuración, o sus letras no están en la tabla."};
}

Text seat_sweep_missing() {
  return {
      "The seat's face is not swept yet, or its outside diameter or the seal's working length is not known.",
      "La cara del asiento aún no está barrida, o no se conoce su diámetro exterior o la longitud de "
      "trabajo."};
}

Text sweeps_of_faces_missing() {
  return {
      "How the faces cover each other needs the sweeps of what carries them: shaft or sleeve, and the seat's "
      "bore.",
      "Para saber cómo se cubren las caras faltan los barridos de lo que las lleva: eje o manguito, y el "
      "alojamiento del "
      "asiento."};
}

Text film_unsolved(const seal::FilmSolution& film) {
  if (film.beyond_liquid)
    return {"The faces run hotter than the liquid's data reach: nothing is known of the film there.",
            "Las caras están más calientes de lo que llegan los datos del líquido: allí no se sabe nada de "
            "la película."};
  if (film.opens)
    return {"At this pressure the liquid pushes the faces apart.",
            "A esta presión el líquido separa las caras."};
  return {"No film was found that these faces could run on.",
          "No se encontró una película sobre la que estas caras puedan correr."};
}

Text beyond_computing(const BadInput& refusal) {
  const auto& wrong = refusal.what_was_wrong();
  return {fmt::format("Not computed, {} is {}: {} is wanted.", wrong.field, wrong.value, wrong.expected),
          fmt::format("Sin calcular, {} es {}: se pide {}.", wrong.field, wrong.value, wrong.expected)};
}

Text sea_level() {
  return {"The altitude is not in the make-up: taken at sea level.",
          "La altitud no está en la configuración: se toma al nivel del mar."};
}

Text film_figures() {
  return {
      "Film: both faces 0.2 µm rough together, friction 0.1 where summits touch, the spring's figures within "
      "5 %; "
      "usual values, not this seal's.",
      "Película: ambas caras juntas 0.2 µm de rugosidad, fricción 0.1 donde se tocan las crestas, datos del "
      "muelle "
      "dentro del 5 %; valores usuales, no de este cierre."};
}

Text usual_salt() {
  return {"Taken as sea water of 35 g/kg.", "Tomada como agua de mar de 35 g/kg."};
}

Text chamber_at_suction() {
  return {
      "Head or impeller back is not in the make-up: the seal is taken to stand at suction pressure, the "
      "least there "
      "can be.",
      "La altura o el dorso del impulsor no está en la configuración: se toma el cierre a presión de "
      "aspiración, lo "
      "menos que puede haber."};
}

Text nominal_length() {
  return {"At the sheet's working length; the stack is not measured yet.",
          "A la longitud de trabajo de la hoja; el apilado aún no está medido."};
}

Text usual_friction(double friction) {
  return {fmt::format("Friction of this pair is not known; {} is taken.", friction),
          fmt::format("La fricción de este par no se conoce; se toma {}.", friction)};
}

Text usual_part_length(Length length) {
  const std::string text = format_significant(AnyQuantity(length), unit_with_symbol("mm", Kind::length), 2);
  return {fmt::format("A face's part is taken as {} long.", text),
          fmt::format("La pieza de una cara se toma de {} de largo.", text)};
}

std::vector<Text> margin(const SealService& s, const MakeUp& make_up) {
  const Unit& gauge = *make_up.service.suction_pressure->unit;
  std::vector<Text> out{judged_at_text(s, *make_up.service.temperature->unit), pressures_text(s, gauge)};
  if (s.least_suction) out.push_back(suction_text(s, gauge));
  if (s.film_in_doubt()) out.insert(out.end(), s.missing.begin(), s.missing.end());
  if (s.film && s.film->converged && s.film->boils)
    out.push_back({fmt::format("The film boils on {:.0f} % of the face.", 100 * s.film->boiling_share),
                   fmt::format("La película hierve en {:.0f} % de la cara.", 100 * s.film->boiling_share)});
  out.insert(out.end(), s.assumed.begin(), s.assumed.end());
  return out;
}

Text tracking(const seal::Tracking& t, const Unit& unit) {
  const auto shown = [&](Force f) {
    return format_significant(AnyQuantity(f), suitable_unit(Kind::force, f.value(), unit.system), 2);
  };
  return {fmt::format("Tipping the head round with the seat asks for {} of the {} that press it.",
                      shown(t.required), shown(t.available)),
          fmt::format("Inclinar la cabeza con el asiento pide {} de los {} que la aprietan.",
                      shown(t.required), shown(t.available))};
}

Text track(Length width, const Unit& unit) {
  const std::string text = format_significant(AnyQuantity(width), unit, 3);
  return {fmt::format("The ring rubs a track {} wide on the seat.", text),
          fmt::format("El anillo deja en el asiento una pista de {} de ancho.", text)};
}

std::vector<Text> spring_state(const SealService& s, const Unit& unit) {
  std::vector<Text> out{{fmt::format("{} to {} with the doubt about length and spring.",
                                     format_significant(AnyQuantity(s.spring->low), unit, 3),
                                     format_significant(AnyQuantity(s.spring->high), unit, 3)),
                         fmt::format("{} a {} con la duda de longitud y muelle.",
                                     format_significant(AnyQuantity(s.spring->low), unit, 3),
                                     format_significant(AnyQuantity(s.spring->high), unit, 3))}};
  if (s.spring->state == seal::SpringState::slack)
    out.push_back(
        {"The spring is slack: it presses with nothing.", "El muelle está flojo: no aprieta nada."});
  if (s.spring->may_be_coil_bound) out.push_back({"Its coils may touch.", "Sus espiras pueden tocarse."});
  return out;
}

}  // namespace pumpwright::job::wording
