// What `pumpwright seal` tells people: one sheet.
#include <array>
#include <utility>

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/job_wording.h"
#include "cli/seal_report.h"
#include "cli/verdict_word.h"
#include "engine/quantity/format.h"
#include "job/service_wording.h"

namespace pumpwright {
namespace {

using job::Language;
using job::Text;

constexpr std::size_t text_width = 110;

class Sheet {
 public:
  Sheet(const JobSession& session, const job::SealQuestion& question, const job::SealFinding& finding,
        Language language, bool colour)
      : session_(session), question_(question), finding_(finding), language_(language), colour_(colour) {
    const Written& suction = question.snapshot.make_up.service.suction_pressure.value_or(Written{});
    if (suction.unit != nullptr && suction.unit->system == System::inch) system_ = System::inch;
  }

  std::string text() const {
    return head() + deciding_text() + numbers_text() + face_text() + checks_text() +
           list_text({"What these numbers rest on", "En qué se apoyan estos números"},
                     finding_.service.assumed) +
           list_text({"What is missing", "Qué falta"}, finding_.service.missing);
  }

 private:
  std::string say(const Text& text) const { return text.in(language_); }

  // Temperatures in the unit the job writes them in, heat in watts, the rest in the system of its pressures.
  std::string shown(const AnyQuantity& quantity) const {
    const auto& temperature = question_.snapshot.make_up.service.temperature;
    if (quantity.kind() == Kind::temperature && temperature)
      return format_significant(quantity, *temperature->unit, 3);
    const System system = quantity.kind() == Kind::power ? System::metric : system_;
    return format_significant(quantity, suitable_unit(quantity.kind(), quantity.si(), system), 3);
  }

  std::string word() const {
    const std::array<Text, 3> words{{{"fit", "apto"}, {"not fit", "no apto"}, {"unproven", "sin probar"}}};
    const std::size_t which = finding_.verdict == job::Verdict::pass   ? 0
                              : finding_.verdict == job::Verdict::fail ? 1
                                                                       : 2;
    return verdict_word(job::word_of(finding_.verdict), say(words[which]), colour_);
  }

  std::string head() const {
    const auto& header = session_.file.header;
    std::string text = fmt::format("{}  {} {}, {}\n", word(), say({"seal of job", "cierre del trabajo"}),
                                   header.number, header.pump);
    const job::Service& service = question_.snapshot.make_up.service;
    text += "  " + say(job::wording::liquid_title(service.fluid));
    for (const auto* part : {&service.temperature, &service.suction_pressure})
      if (*part) text += ", " + (*part)->text;
    text += ", " + question_.snapshot.make_up.speed.text;
    if (service.altitude) text += ", " + service.altitude->text;
    if (question_.tried) text += say({"   (conditions tried)", "   (condiciones probadas)"});
    return text + "\n";
  }

  void add_check(TextTable& table, const job::CheckFinding& finding) const {
    const job::Check& check = *question_.snapshot.plan.find(finding.check);
    const job::JudgedReading* reading = finding.readings.empty() ? nullptr : &finding.readings.front();
    std::string value;
    if (reading != nullptr && reading->value)
      value = format_significant(*reading->value, job::unit_to_show(check, *reading), 3);
    table.add(
        {verdict_word(job::word_of(finding.verdict), job::title_of(finding.verdict).in(language_), colour_),
         check.title.in(language_), value,
         check.limits.empty() ? "" : limit_text(check.limits.front(), language_)});
  }

  // The three numbers a seal stands or falls with.
  std::string deciding_text() const {
    TextTable table({Align::left, Align::left, Align::right, Align::left});
    for (const auto id : job::deciding_checks())
      if (const auto* finding = finding_.find(id)) add_check(table, *finding);
    if (table.empty()) return "";
    return "\n" + say({"What decides", "Lo que decide"}) + "\n" + table.text(2);
  }

  std::string numbers_text() const {
    const job::SealService& s = finding_.service;
    TextTable table({Align::left, Align::left});
    const auto row = [&](const Text& name, const std::string& value) { table.add({say(name), value}); };
    if (s.chamber)
      row({"pressure at the seal (estimate)", "presión en el cierre (estimada)"},
          s.chamber->share.high == s.chamber->share.low
              ? shown(AnyQuantity(s.chamber->expected))
              : fmt::format("{} ({} … {})", shown(AnyQuantity(s.chamber->expected)),
                            shown(AnyQuantity(s.chamber->low)), shown(AnyQuantity(s.chamber->high))));
    if (s.margin) {
      row({"vapour pressure there", "presión de vapor allí"}, shown(AnyQuantity(s.margin->vapour)));
      row({"the liquid boils at", "el líquido hierve a"}, shown(AnyQuantity(s.margin->boiling)));
    }
    if (s.least_suction && s.least_suction->value >= pascals(0))
      row({"least suction pressure that would do for the seal",
           "mínima presión de aspiración que basta para el cierre"},
          shown(AnyQuantity(*s.least_suction)));
    if (s.faces)
      row({"balance ratio", "relación de equilibrio"}, fmt::format("{:.3f}", seal::balance_ratio(*s.faces)));
    if (s.length) row({"working length", "longitud de trabajo"}, shown(AnyQuantity(s.length->length.value)));
    if (s.spring) row({"spring force", "fuerza del muelle"}, shown(AnyQuantity(s.spring->force.value)));
    if (s.load) {
      row({"face pressure, net", "presión en las caras, neta"}, shown(AnyQuantity(s.load->net_pressure)));
      row({"times sliding speed", "por la velocidad de deslizamiento"}, shown(AnyQuantity(s.load->pv)));
      row({"starting torque", "par de arranque"},
          fmt::format("{} … {}", shown(AnyQuantity(s.load->starting_low)),
                      shown(AnyQuantity(s.load->starting_high))));
    }
    if (s.film && s.film->converged) {
      row({"friction torque", "par de fricción"}, shown(AnyQuantity(s.film->friction)));
      row({"heat of the faces", "calor de las caras"}, shown(AnyQuantity(s.film->heat)));
      row({"hottest place of the faces", "lugar más caliente de las caras"},
          shown(AnyQuantity(s.film->face_hottest)));
      row({"carried by summits in touch", "llevado por crestas en contacto"},
          fmt::format("{:.0f} %", 100 * s.film->contact_share));
      row({"leak", "fuga"},
          format_significant(AnyQuantity(s.film->leakage), unit_with_symbol("mL/h", Kind::volume_flow), 2));
    }
    if (s.circulation)
      row({"flow that carries that heat away with 5.6 K", "caudal que se lleva ese calor con 5.6 K"},
          shown(AnyQuantity(*s.circulation)));
    if (s.growth)
      row({"warmth changes the working length by (estimate)",
           "el calor cambia la longitud de trabajo (estimado)"},
          fmt::format("{} … {}", shown(AnyQuantity(s.growth->low)), shown(AnyQuantity(s.growth->high))));
    if (s.spring_shortest && s.spring_longest)
      row({"spring force over end float and warmth", "fuerza del muelle en todo el juego axial y el calor"},
          fmt::format("{} … {}", shown(AnyQuantity(s.spring_longest->force.value)),
                      shown(AnyQuantity(s.spring_shortest->force.value))));
    if (s.dry_run)
      row({"run dry, the elastomer's limit comes after about (estimate)",
           "en seco, el límite del elastómero llega tras unos (estimado)"},
          shown(AnyQuantity(s.dry_run->earliest)) + " … " + shown(AnyQuantity(s.dry_run->adiabatic)));
    if (s.overlap)
      row({"track the ring rubs on the seat", "pista que el anillo deja en el asiento"},
          shown(AnyQuantity(s.overlap->track_width)));
    if (s.tracking && s.tracking->required.value() == 0)
      row({"seat out of square: the bellows flexes once a turn by",
           "asiento fuera de escuadra: el fuelle flexiona una vez por vuelta"},
          fmt::format("± {}, {}", shown(AnyQuantity(s.tracking->stroke)),
                      shown(AnyQuantity(s.tracking->peak_velocity))));
    return table.empty() ? "" : "\n" + say({"The numbers", "Los números"}) + "\n" + table.text(2);
  }

  // The film at five places, from the inside out.
  std::string face_text() const {
    const auto& film = finding_.service.film;
    if (!film || !film->converged || film->profile.size() < 5) return "";
    TextTable table({Align::right, Align::right, Align::right, Align::right});
    table.add({say({"radius", "radio"}), say({"film", "película"}), say({"pressure", "presión"}),
               say({"temperature", "temperatura"})});
    for (int i = 0; i < 5; ++i) {
      const auto& p = film->profile[(film->profile.size() - 1) * static_cast<std::size_t>(i) / 4];
      table.add({shown(AnyQuantity(p.radius)), fmt::format("{:.2f} µm", p.film.value() * 1e6),
                 shown(AnyQuantity(p.pressure)), shown(AnyQuantity(p.temperature))});
    }
    return "\n" + say({"Along the face", "A lo largo de la cara"}) + "\n" + table.text(2);
  }

  std::string checks_text() const {
    TextTable table({Align::left, Align::left, Align::right, Align::left});
    for (const auto& finding : finding_.checks)
      add_check(table, finding);
    const auto lines = table.lines(2);
    std::string text = "\n" + say({"Checks of the seal", "Comprobaciones del cierre"}) + "\n";
    for (std::size_t i = 0; i < lines.size(); ++i)
      text += lines[i] + "\n" + notes_of(finding_.checks[i]);
    return text;
  }

  std::string notes_of(const job::CheckFinding& finding) const {
    if (finding.readings.empty()) return "";
    const job::Check& check = *question_.snapshot.plan.find(finding.check);
    const job::JudgedReading& reading = finding.readings.front();
    std::string text;
    const auto add = [&](const std::string& note) { text += wrapped(note, text_width, 10); };
    if (reading.verdict != job::Verdict::pass) {
      add(job::title_of(reading.reason).in(language_));
      if (!check.limits.empty())
        add(pumpwright::say(Word::source, language_) + ": " + citation(check.limits.front().source));
    }
    for (const auto& remark : reading.remarks)
      add(remark.in(language_));
    if (reading.verdict == job::Verdict::fail) add(check.if_it_fails.in(language_));
    return text;
  }

  std::string list_text(const Text& title, const std::vector<Text>& items) const {
    if (items.empty()) return "";
    std::string text = "\n" + say(title) + "\n";
    for (const auto& item : items)
      text += wrapped(item.in(language_), text_width, 2);
    return text;
  }

  const JobSession& session_;
  const job::SealQuestion& question_;
  const job::SealFinding& finding_;
  Language language_;
  bool colour_;
  System system_ = System::metric;
};

}  // namespace

std::string seal_text(const JobSession& session, const job::SealQuestion& question,
                      const job::SealFinding& finding, Language language, bool colour) {
  return Sheet(session, question, finding, language, colour).text();
}

}  // namespace pumpwright
