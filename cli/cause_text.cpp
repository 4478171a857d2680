#include <fmt/format.h>

#include "cli/cause_report.h"
#include "cli/display_text.h"
#include "cli/input_file.h"

namespace pumpwright {
namespace {

using job::Text;
using reliability::RankedCause;

constexpr std::size_t text_width = 100;
class Sheet {
 public:
  Sheet(const CauseReport& report, const job::CauseTables& tables)
      : report_(report), tables_(tables), finding_(report.finding) {}

  std::string text() const {
    return fmt::format("{}: {}\n\n{}\n{}{}{}{}{}", shown_name(report_.file), one_line(report_.name),
                       wrapped(say(headline_text(tables_, finding_)), text_width, 2), track(), changes(),
                       ranking(), next(), left_out());
  }

 private:
  const std::string& say(const Text& text) const { return text.in(report_.language); }
  std::string say(const char* en, const char* es) const { return say(Text{en, es}); }

  std::string track() const {
    const std::string said = say(job::track_text(finding_));
    return said.empty() ? "" : wrapped(said, text_width, 2) + "\n";
  }

  std::string changes() const {
    if (!finding_.tells()) return "";
    std::string out = say("What to change", "Qué cambiar") + "\n";
    for (const std::size_t cause : finding_.diagnosis.named)
      out += wrapped(say(tables_.causes()[cause].change), text_width, 2);
    return out + "\n";
  }

  std::string source_of(std::size_t cause, std::size_t finding) const {
    const Source* source = tables_.source_of(cause, finding);
    return source == nullptr ? "" : citation(*source);
  }

  std::string evidence_of(const RankedCause& cause) const {
    TextTable table({Align::right, Align::left, Align::left});
    for (const auto& [which, weight] : job::evidence_to_show(cause))
      table.add({fmt::format("{:+.1f}", weight),
                 fmt::format("{}: {}", say(tables_.findings()[which].title), say(seen_text(finding_, which))),
                 source_of(cause.cause, which)});
    return table.text(6);
  }

  std::string ranking() const {
    std::string out =
        say("Causes, with what speaks for (+) and against (-) each, in powers of ten of its odds",
            "Causas, con lo que habla a favor (+) y en contra (-) de cada una, en potencias de diez") +
        "\n";
    for (const RankedCause& cause : job::causes_to_show(finding_))
      out += fmt::format("  {}: {}\n{}", say(job::probability_text(cause.probability)),
                         say(tables_.causes()[cause.cause].title), evidence_of(cause));
    out += wrapped(say("How likely, and how often a cause leaves a finding, are the catalog's own estimates "
                       "(docs/cause.md).",
                       "La probabilidad y cuántas veces una causa deja un hallazgo son estimaciones propias "
                       "del catálogo."),
                   text_width, 2);
    return out;
  }

  std::string next() const {
    std::string out;
    for (const auto& next : job::next_to_show(finding_)) {
      const auto& entry = tables_.findings()[next.finding];
      out += wrapped(
          fmt::format("{}: {}? {}", say(job::part_text(entry.part)), say(entry.title), say(entry.look)),
          text_width, 2);
    }
    if (out.empty()) return "";
    return "\n" + say("Look next for, the most telling first", "Buscar ahora, lo que más diría primero") +
           "\n" + out;
  }

  std::string left_out() const {
    if (finding_.unknown.empty()) return "";
    std::string words;
    for (const auto& word : finding_.unknown)
      words += (words.empty() ? "" : ", ") + word;
    return "\n" +
           wrapped(say("Not known to this catalog, left out: ", "No conocido por este catálogo, omitido: ") +
                       words,
                   text_width);
  }

  const CauseReport& report_;
  const job::CauseTables& tables_;
  const job::CauseFinding& finding_;
};

}  // namespace

std::string cause_text(const CauseReport& report, const job::CauseTables& tables) {
  return Sheet(report, tables).text();
}

}  // namespace pumpwright
