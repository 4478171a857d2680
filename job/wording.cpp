#include "job/wording.h"

#include <array>
#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/format.h"

namespace pumpwright::job {
namespace {

struct ReasonWords {
  Reason reason;
  std::string_view word;
  const char* en;
  const char* es;
};

constexpr std::array<ReasonWords, 26> reasons{{
    {Reason::inside, "inside", "inside the limit", "dentro del límite"},
    {Reason::outside, "outside", "outside the limit", "fuera del límite"},
    {Reason::inside_uncertainty, "inside-uncertainty", "the limit lies inside the measurement's uncertainty",
     "el límite queda dentro de la incertidumbre de la medición"},
    {Reason::instrument_too_coarse, "instrument-too-coarse", "the instrument is too coarse for this limit",
     "el instrumento es demasiado basto para este límite"},
    {Reason::not_taken, "not-taken", "no reading yet", "todavía sin lectura"},
    {Reason::input_missing, "input-missing", "a reading it is computed from is missing",
     "falta una lectura de la que se calcula"},
    {Reason::no_limit, "no-limit", "no limit is known for this make-up",
     "no se conoce límite para esta configuración"},
    {Reason::limit_unconfirmed, "limit-unconfirmed", "limit unconfirmed: it is remembered, not read",
     "límite sin confirmar: es de memoria, no leído"},
    {Reason::limit_not_adopted, "limit-not-adopted",
     "the limit is common practice and the shop has not adopted it",
     "el límite es práctica común y el taller no lo ha adoptado"},
    {Reason::instrument_out_of_date, "instrument-out-of-date", "the instrument was out of date",
     "el instrumento no estaba en fecha"},
    {Reason::setup_not_proven, "setup-not-proven", "the set-up was not proven: push, release, tap, read zero",
     "el montaje no se comprobó: empujar, soltar, golpear, leer cero"},
    {Reason::setup_moves, "setup-moves", "the zero did not return within half a graduation",
     "el cero no volvió dentro de media división"},
    {Reason::base_not_rigid, "base-not-rigid", "the base stood on something that moves",
     "la base estaba sobre algo que se mueve"},
    {Reason::mount_missing, "mount-missing", "nobody wrote down how the indicator sat",
     "no se anotó cómo estaba colocado el comparador"},
    {Reason::wrong_mount, "wrong-mount", "the indicator sat so that it measured something else",
     "el comparador estaba colocado de modo que medía otra cosa"},
    {Reason::bar_sag_not_measured, "bar-sag-not-measured", "the sag of the bar was not measured",
     "no se midió la flecha de la barra"},
    {Reason::shaft_not_held, "shaft-not-held", "one indicator, and the shaft was not held against its float",
     "un solo comparador y el eje no estaba sujeto contra su juego axial"},
    {Reason::confirmed, "confirmed", "seen and confirmed", "visto y confirmado"},
    {Reason::refused, "refused", "seen, and it is not so", "visto, y no es así"},
    {Reason::not_computable, "not-computable", "the figures it needs are not known",
     "no se conocen los datos que necesita"},
    {Reason::suits, "suits", "they go together", "van bien juntos"},
    {Reason::does_not_suit, "does-not-suit", "they must not meet", "no deben juntarse"},
    {Reason::pair_unknown, "pair-unknown", "nobody says whether they go together",
     "nadie dice si van bien juntos"},
    {Reason::test_proves_nothing, "test-proves-nothing",
     "the test was not carried out so that it proves anything",
     "la prueba no se hizo de modo que demuestre algo"},
    {Reason::test_kept, "test-kept", "the test shows what it must", "la prueba muestra lo que debe"},
    {Reason::test_failed, "test-failed", "the test shows that it is not so",
     "la prueba muestra que no es así"},
}};

const ReasonWords& words_of(Reason reason) {
  return reasons[static_cast<std::size_t>(reason)];
}

struct VerdictWords {
  std::string_view word;
  const char* en;
  const char* es;
};

constexpr std::array<VerdictWords, 4> verdicts{{{"pass", "pass", "pasa"},
                                                {"fail", "fail", "falla"},
                                                {"unproven", "unproven", "sin probar"},
                                                {"not-taken", "not taken", "sin tomar"}}};

}  // namespace

std::string_view word_of(Verdict verdict) {
  return verdicts[static_cast<std::size_t>(verdict)].word;
}
Text title_of(Verdict verdict) {
  const auto& v = verdicts[static_cast<std::size_t>(verdict)];
  return {v.en, v.es};
}
std::string_view word_of(Reason reason) {
  return words_of(reason).word;
}
Text title_of(Reason reason) {
  return {words_of(reason).en, words_of(reason).es};
}

namespace wording {
namespace {

std::string in_unit(Length length, const Unit& unit) {
  return format_significant(AnyQuantity(Kind::length, std::fabs(length.value())), unit, 2);
}

}  // namespace

Text suspect(const std::string& reading, double place_deg, bool rotating) {
  const double hours = std::fmod(place_deg / 30, 12);
  const std::string place =
      rotating ? fmt::format("{:.0f}°", place_deg) : fmt::format("{:.1f} h", hours < 1 ? hours + 12 : hours);
  return {fmt::format("The reading {} at {} does not belong with the others: clean the place, look for a "
                      "burr, read it again.",
                      reading, place),
          fmt::format("La lectura {} en {} no concuerda con las demás: limpiar el lugar, buscar una rebaba, "
                      "leer de nuevo.",
                      reading, place)};
}

Text missed_tir(std::size_t places, Length bound, const Unit& unit) {
  return {fmt::format("{} places can have missed up to {} of the full indicator movement.", places,
                      in_unit(bound, unit)),
          fmt::format("{} lugares pueden haber dejado sin ver hasta {} del movimiento total del comparador.",
                      places, in_unit(bound, unit))};
}

Text correction(const Correction& c, const Unit& unit) {
  const auto amount = [&](Length length) {
    return format_significant(AnyQuantity(Kind::length, std::fabs(length.value())), unit, 3);
  };
  const bool is_short = c.off < metres(0);
  Text out;
  if (!c.part.empty()) {
    const bool part_short = c.part_off < metres(0);
    out.en = fmt::format("{}: {} {} than its sheet says, which is what is wrong. ", c.part.en,
                         amount(c.part_off), part_short ? "less" : "more");
    out.es = fmt::format("{}: {} {} de lo que dice su hoja, y eso es lo que está mal. ", c.part.es,
                         amount(c.part_off), part_short ? "menos" : "más");
  }
  out.en +=
      fmt::format("{} {} against the middle of its limit: ", amount(c.off), is_short ? "short" : "long");
  out.es +=
      fmt::format("{} {} respecto al centro de su límite: ", amount(c.off), is_short ? "corta" : "larga");
  const Length wanted = (c.there ? *c.there : metres(0)) - c.off;
  if (c.there && wanted > metres(0)) {
    out.en += fmt::format("{} of {} in place of {}.", c.with.en, amount(wanted), amount(*c.there));
    out.es += fmt::format("{} de {} en lugar de {}.", c.with.es, amount(wanted), amount(*c.there));
  } else if (is_short) {
    out.en += fmt::format("{} of {}.", c.with.en, amount(c.off));
    out.es += fmt::format("{} de {}.", c.with.es, amount(c.off));
  } else {
    out.en += fmt::format("take {} off; no shim can.", amount(c.off));
    out.es += fmt::format("quitar {}; ningún calce puede.", amount(c.off));
  }
  return out;
}

Text closure(Length closure, const Unit& unit) {
  return {fmt::format("The last reading differs from the first by {}: something moved during the sweep.",
                      in_unit(closure, unit)),
          fmt::format("La última lectura difiere de la primera en {}: algo se movió durante el barrido.",
                      in_unit(closure, unit))};
}

Text unexplained_scatter() {
  return {
      "The readings scatter more than the instrument explains: form, looseness or a bad reading. More places "
      "would tell.",
      "Las lecturas se dispersan más de lo que explica el instrumento: forma, holgura o una lectura mala. "
      "Más lugares lo dirían."};
}

Text high_spot_unknown() {
  return {
      "The eccentricity is too small against its uncertainty to say where the high spot is.",
      "La excentricidad es demasiado pequeña frente a su incertidumbre para decir dónde está el punto alto."};
}

Text two_readings_stand(std::size_t count) {
  return {fmt::format("{} readings stand; the worst decides.", count),
          fmt::format("Hay {} lecturas vigentes; decide la peor.", count)};
}

Text end_float(Length end_float, const Unit& unit) {
  return {fmt::format("End float seen during the sweep: {}.", in_unit(end_float, unit)),
          fmt::format("Juego axial visto durante el barrido: {}.", in_unit(end_float, unit))};
}

Text temperature_corrected(Length correction, const Unit& unit) {
  const std::string by = format_significant(AnyQuantity(correction), unit, 2, Sign::always);
  return {fmt::format("Corrected to 20 °C by {} (ISO 1).", by),
          fmt::format("Corregido a 20 °C en {} (ISO 1).", by)};
}

Text preload_range(double smallest_share, double largest_share) {
  return {
      fmt::format(
          "This torque loads the fastener to between {:.0f} % and {:.0f} % of its proof load, by friction.",
          smallest_share * 100, largest_share * 100),
      fmt::format("Este par carga el tornillo entre el {:.0f} % y el {:.0f} % de su carga de prueba, según "
                  "la fricción.",
                  smallest_share * 100, largest_share * 100)};
}

Text missing_input(const Text& name) {
  return {fmt::format("Missing: {}.", name.en), fmt::format("Falta: {}.", name.es)};
}

namespace {

// Ways that lead to a proof, joined by "or".
Text joined(const std::vector<Text>& ways) {
  Text out;
  for (std::size_t i = 0; i < ways.size(); ++i) {
    out.en += (i == 0 ? "" : ", or ") + ways[i].en;
    out.es += (i == 0 ? "" : ", o ") + ways[i].es;
  }
  return out;
}

Text by_measuring(const Settling<double>& settling, const Unit& unit) {
  const auto shown = [&](double si) { return format_significant(AnyQuantity(unit.kind, si), unit, 2); };
  std::vector<Text> ways;
  if (settling.graduation) {
    const auto g = shown(*settling.graduation);
    ways.push_back({fmt::format("an instrument that reads {} or finer", g),
                    fmt::format("un instrumento que lea {} o más fino", g)});
  }
  if (settling.repeats)
    ways.push_back({fmt::format("the same measurement {} times, averaged", *settling.repeats),
                    fmt::format("la misma medición {} veces, promediada", *settling.repeats)});
  if (settling.u) {
    const auto u = shown(*settling.u);
    ways.push_back({fmt::format("a standard uncertainty of {} or less", u),
                    fmt::format("una incertidumbre típica de {} o menos", u)});
  }
  Text out = joined(ways);
  if (out.empty())
    return {"No finer measurement settles it: the value lies on the limit.",
            "Ninguna medición más fina lo decide: el valor está sobre el límite."};
  return {"Would settle it: " + out.en + ".", "Lo decidiría: " + out.es + "."};
}

}  // namespace

Text settle(Reason reason, const Settling<double>& settling, const Unit& unit) {
  switch (reason) {
    case Reason::inside_uncertainty:
    case Reason::instrument_too_coarse:
      return by_measuring(settling, unit);
    case Reason::limit_unconfirmed:
      return {"Compare the limit with its document and confirm it for the shop.",
              "Comparar el límite con su documento y confirmarlo para el taller."};
    case Reason::limit_not_adopted:
      return {"Let the shop adopt the limit, or enter the maker's.",
              "Que el taller adopte el límite, o introducir el del fabricante."};
    case Reason::instrument_out_of_date:
      return {"Read again with an instrument in date.", "Leer de nuevo con un instrumento en fecha."};
    case Reason::setup_not_proven:
    case Reason::setup_moves:
      return {
          "Prove the set-up (push, release, tap; zero returns within half a graduation), then sweep again.",
          "Comprobar el montaje (empujar, soltar, golpear; el cero vuelve dentro de media división) y barrer "
          "de nuevo."};
    case Reason::base_not_rigid:
      return {"Put the base on the motor's face or a rigid frame and sweep again.",
              "Poner la base en la cara del motor o en un bastidor rígido y barrer de nuevo."};
    case Reason::mount_missing:
    case Reason::wrong_mount:
      return {"Write down where the base sat and what turned, or sweep again as the step shows.",
              "Anotar dónde estaba la base y qué giraba, o barrer de nuevo como indica el paso."};
    case Reason::bar_sag_not_measured:
      return {"Measure the bar's sag and enter it, or stand the motor shaft-up.",
              "Medir la flecha de la barra y anotarla, o poner el motor con el eje hacia arriba."};
    case Reason::shaft_not_held:
      return {"Hold the shaft towards one side, or use two indicators 180° apart.",
              "Sujetar el eje hacia un lado, o usar dos comparadores a 180°."};
    case Reason::no_limit:
      return {"Enter the limit from the pump's sheet.", "Introducir el límite de la hoja de la bomba."};
    case Reason::test_proves_nothing:
      return {"Put right what the remarks name, and test again.",
              "Corregir lo que dicen las observaciones y probar de nuevo."};
    case Reason::input_missing:
      return {"Take the missing reading.", "Tomar la lectura que falta."};
    default:
      return {};
  }
}

Text step_open(const Text& title) {
  return {"Step not done: " + title.en, "Paso sin hacer: " + title.es};
}
Text hold_open(const Text& title) {
  return {"Hold point not released: " + title.en, "Punto de espera sin liberar: " + title.es};
}

}  // namespace wording
}  // namespace pumpwright::job
