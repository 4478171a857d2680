#include "report/customer_letter.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "job/cause_wording.h"
#include "report/amount_text.h"
#include "report/labels.h"
#include "report/page_flow.h"
#include "report/palette.h"
#include "report/record_text.h"
#include "report/section_drawing.h"

namespace pumpwright::report {
namespace {

using job::Text;

constexpr std::size_t most_found = 7;
constexpr std::size_t most_done = 7;
constexpr std::size_t text_characters_max = 180;
constexpr std::size_t place_characters_max = 60;
// Tried one after the other until all is on one page.
constexpr std::array<double, 3> picture_heights{215, 180, 0};

// What an owner understands of a build, in the order of a letter. Of the plan's checks, those it has.
constexpr std::array<std::string_view, 11> told_checks{
    "shaft-runout", "register-runout", "seat-squareness", "working-length", "impeller-sweep", "balanced",
    "aligned",      "pressure-hold",   "guarantee",       "vibration",      "vapour-margin"};

Type body() {
  return {10.2, Weight::regular, ink, Align::left};
}
Type strong() {
  return {10.2, Weight::bold, ink, Align::left};
}
Type small() {
  return {7.6, Weight::regular, soft_ink, Align::left};
}

class Letter {
 public:
  Letter(const CustomerLetterInput& input, PdfDocument& document, double picture_height)
      : in_(input),
        picture_height_(picture_height),
        flow_(document, page_size(input.record.paper), furniture(), 1) {}

  // How many pages it took.
  int set() {
    head();
    found();
    why();
    picture();
    done();
    change();
    sign();
    flow_.finish();
    return flow_.page();
  }

 private:
  const std::string& say(const Text& text) const { return text.in(in_.record.language); }
  std::string say(const char* en, const char* es) const { return say(Text{en, es}); }
  const std::string& label(Label l) const { return text_of(l, in_.record.language); }
  std::string cut(const std::string& text) const {
    return shortened(text, text_characters_max, in_.record.language);
  }
  job::UtcTime date() const { return last_event(in_.record.state, in_.record.header.opened); }

  PageFurniture furniture() const {
    const std::string job =
        label(Label::job) + " " + shortened(in_.record.header.number, 40, in_.record.language);
    return {"", "", job + " · " + in_.record.record_hash.substr(0, 12),
            in_.record.header.invented ? label(Label::invented) : "", label(Label::page_of)};
  }

  void title(const std::string& text) {
    flow_.advance(7);
    flow_.paragraph(text, strong());
    flow_.advance(2);
  }

  void point(const std::string& text) {
    constexpr double indent = 12;
    flow_.canvas().rectangle({flow_.left() + 3, flow_.y() + 4.6, 3, 3}, {ink, std::nullopt});
    flow_.paragraph(text, body(), indent);
    flow_.advance(1.5);
  }

  void head() {
    const job::JobHeader& h = in_.record.header;
    flow_.paragraph(say("Why your pump came back", "Por qué volvió su bomba"),
                    {20, Weight::bold, ink, Align::left});
    flow_.paragraph(cut(h.pump) + (h.serial.empty() ? "" : ", " + cut(h.serial)), body());
    flow_.paragraph(fmt::format("{} · {} {} · {}", cut(h.customer), label(Label::job), cut(h.number),
                                moment_text(date()).substr(0, 10)),
                    small());
    flow_.advance(4);
    flow_.canvas().line({flow_.left(), flow_.y()}, {flow_.left() + flow_.width(), flow_.y()}, {ink, 1, {}});
    flow_.advance(4);
    std::string told = in_.strip_down.complaint.empty() ? h.reason : in_.strip_down.complaint;
    if (told.empty()) return;
    told = fmt::format("{} “{}”", say("You told us:", "Usted nos dijo:"), cut(told));
    if (in_.strip_down.hours_run)
      told += fmt::format(" {} {}.", say("It had run", "Había trabajado"), in_.strip_down.hours_run->text);
    flow_.paragraph(told, body());
  }

  std::string finding_line(const job::FoundThing& thing) const {
    const auto which = in_.tables.finding(thing.finding);
    std::string line = which ? say(in_.tables.findings()[*which].title) : thing.said;
    if (!thing.where.empty())
      line += " (" + shortened(thing.where, place_characters_max, in_.record.language) + ")";
    return line;
  }

  void found() {
    title(say("What we found when we opened it", "Lo que hallamos al abrirla"));
    std::size_t listed = 0;
    for (const auto& thing : in_.strip_down.found)
      if (listed++ < most_found) point(finding_line(thing));
    if (listed > most_found)
      flow_.paragraph(say("The build record lists the rest.", "El registro de montaje lista el resto."),
                      small());
    if (const std::string track = say(job::track_text(in_.cause)); !track.empty()) point(track);
    if (listed == 0) point(say("Nothing that we could see.", "Nada que pudiéramos ver."));
  }

  void why() {
    title(say("Why it came back", "Por qué volvió"));
    flow_.paragraph(say(headline_text(in_.tables, in_.cause)) + ".", strong());
    if (!in_.cause.tells())
      flow_.paragraph(
          say("We do not claim more than the parts say. We keep them until this is agreed with you.",
              "No afirmamos más de lo que dicen las piezas. Las guardamos hasta acordarlo con usted."),
          body());
    flow_.paragraph(say("How likely is our own estimate from what was found.",
                        "La probabilidad es estimación nuestra a partir de lo hallado."),
                    small());
  }

  void picture() {
    if (picture_height_ == 0) return;
    flow_.advance(6);
    const Box box{flow_.left(), flow_.y(), flow_.width(), picture_height_};
    flow_.advance(
        draw_section(flow_.canvas(), box, whole_view(in_.record.section, {}), in_.record.language).height);
  }

  // "Working length: 1.250 in", of a check that passed.
  std::string done_line(const job::Check& check, const job::CheckFinding& finding) const {
    const job::JudgedReading& reading = finding.readings.front();
    std::string line = check.title.in(in_.record.language);
    if (reading.value)
      line += ": " +
              value_text(*reading.value, job::unit_to_show(check, reading), reading.instrument_graduation_si);
    return line;
  }

  void done() {
    title(say("What we did", "Lo que hicimos"));
    const job::Judgement& j = in_.record.judgement;
    flow_.paragraph(fmt::format(fmt::runtime(say("Built to a plan made for this pump: {} of {} checks pass.",
                                                 "Montada según un plan hecho para esta bomba: {} de {} "
                                                 "comprobaciones pasan.")),
                                j.passed, j.findings.size()),
                    body());
    std::size_t listed = 0;
    for (const auto id : told_checks) {
      const job::Check* check = in_.record.snapshot.plan.find(id);
      const job::CheckFinding* finding = check == nullptr ? nullptr : j.find(id);
      if (finding == nullptr || finding->verdict != job::Verdict::pass || finding->readings.empty()) continue;
      if (listed++ < most_done) point(done_line(*check, *finding));
    }
  }

  void change() {
    title(say("What you should change", "Lo que usted debería cambiar"));
    if (in_.cause.tells()) {
      for (const std::size_t cause : in_.cause.diagnosis.named)
        point(say(in_.tables.causes()[cause].owner));
    } else {
      for (const auto& cause : job::causes_to_show(in_.cause).first(2))
        point(fmt::format("{}: {}", say(in_.tables.causes()[cause.cause].title),
                          say(in_.tables.causes()[cause.cause].owner)));
    }
    flow_.paragraph(
        say("Before you work on the pump: lock it out, let it cool, let the pressure off. Local rules come "
            "first; electrical work is for a licensed person.",
            "Antes de trabajar en la bomba: bloquearla, dejarla enfriar, quitar la presión. Las reglas "
            "locales van primero; el trabajo eléctrico es de una persona autorizada."),
        small());
  }

  void sign() {
    flow_.advance(22);
    flow_.canvas().line({flow_.left(), flow_.y()}, {flow_.left() + 190, flow_.y()}, {ink, 0.7, {}});
    flow_.advance(3);
    flow_.paragraph(say("for the shop, name and date", "por el taller, nombre y fecha"), small());
  }

  const CustomerLetterInput& in_;
  double picture_height_;
  PageFlow flow_;
};

DocumentFacts facts_of(const BuildRecordInput& record) {
  const bool spanish = record.language == job::Language::spanish;
  DocumentFacts facts;
  facts.title = (spanish ? "Por qué volvió su bomba, trabajo " : "Why your pump came back, job ") +
                record.header.number;
  facts.author = "Pumpwright";
  facts.subject = record.header.pump;
  facts.keywords = record.record_hash;
  facts.date = job::format_utc_time(last_event(record.state, record.header.opened));
  return facts;
}

}  // namespace

std::string customer_letter_pdf(const CustomerLetterInput& input) {
  std::string bytes;
  for (const double picture_height : picture_heights) {
    PdfDocument document(page_size(input.record.paper), facts_of(input.record));
    const int pages = Letter(input, document, picture_height).set();
    bytes = document.finish();
    if (pages == 1) break;
  }
  return bytes;
}

}  // namespace pumpwright::report
