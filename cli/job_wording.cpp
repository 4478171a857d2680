#include "cli/job_wording.h"

#include <map>

#include <fmt/format.h>

namespace pumpwright {
namespace {

using job::Text;

const std::map<Word, Text>& words() {
  static const std::map<Word, Text> table{
      {Word::at_least, {"at least", "al menos"}},
      {Word::at_most, {"at most", "como máximo"}},
      {Word::caution, {"CAUTION", "PRECAUCIÓN"}},
      {Word::changed, {"What changed", "Qué ha cambiado"}},
      {Word::decides, {"decides", "decide"}},
      {Word::derived_from, {"Plan derived from the catalog at hand", "Plan derivado del catálogo presente"}},
      {Word::does_not_decide, {"does not decide", "no decide"}},
      {Word::frozen_snapshot,
       {"Judged by the snapshot frozen in this job",
        "Juzgado según la instantánea congelada en este trabajo"}},
      {Word::guarded, {"guarded", "con margen de guarda"}},
      {Word::hold_point,
       {"HOLD POINT: another person releases it", "PUNTO DE ESPERA: lo libera otra persona"}},
      {Word::if_it_fails, {"if it fails", "si falla"}},
      {Word::instrument, {"instrument", "instrumento"}},
      {Word::judged_again,
       {"Judged again by the catalog at hand", "Juzgado de nuevo con el catálogo presente"}},
      {Word::nothing_changed, {"Nothing changed.", "Nada ha cambiado."}},
      {Word::nothing_frozen,
       {"No snapshot is frozen in this job: judged by the catalog at hand",
        "Este trabajo no tiene instantánea congelada: juzgado con el catálogo presente"}},
      {Word::not_in_plan, {"not in the plan", "no está en el plan"}},
      {Word::no_limit, {"no limit", "sin límite"}},
      {Word::open_points, {"Open points", "Puntos abiertos"}},
      {Word::plan_written,
       {"Job with its plan frozen written to", "Trabajo con su plan congelado escrito en"}},
      {Word::report_written, {"Build record written to", "Registro de montaje escrito en"}},
      {Word::drawings_written, {"Drawings written to", "Dibujos escritos en"}},
      {Word::readings_written, {"Readings written to", "Lecturas escritas en"}},
      {Word::settle, {"would settle it", "lo resolvería"}},
      {Word::simple, {"simple", "simple"}},
      {Word::source, {"source", "fuente"}},
  };
  return table;
}

}  // namespace

const std::string& say(Word word, job::Language language) {
  return words().at(word).in(language);
}

std::string limit_text(const job::Limit& limit, job::Language language) {
  if (limit.lower && limit.upper) return fmt::format("{} … {}", limit.lower->text, limit.upper->text);
  if (limit.upper) return fmt::format("{} {}", say(Word::at_most, language), limit.upper->text);
  if (!limit.lower) return job::asked_by(limit).in(language);
  return fmt::format("{} {}", say(Word::at_least, language), limit.lower->text);
}

std::string rule_text(const job::Limit& limit, job::Language language) {
  if (limit.decision.rule == job::Rule::guarded) return say(Word::guarded, language);
  return fmt::format("{} {:g}:1", say(Word::simple, language), limit.decision.ratio);
}

std::string standing_text(const job::Limit& limit, job::Language language) {
  std::string rank = job::title_of(limit.rank).in(language);
  if (limit.rank == job::Rank::common_practice && limit.source.obtained == Obtained::common_practice)
    return rank;
  return rank + ", " + job::title_of(limit.source.obtained).in(language);
}

job::Language language_of(const std::string& word) {
  return word == "es" ? job::Language::spanish : job::Language::english;
}

}  // namespace pumpwright
