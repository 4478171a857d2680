#include "report/record_front.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "job/service_wording.h"
#include "report/amount_text.h"
#include "report/labels.h"
#include "report/palette.h"
#include "report/qr_tag.h"
#include "report/record_text.h"
#include "report/section_drawing.h"
#include "report/verdict_mark.h"

namespace pumpwright::report {
namespace {

constexpr double tag_size = 74;
constexpr std::size_t field_characters_max = 240;

struct Field {
  std::string name;
  std::string value;
  int columns = 1;  // of four
};

// The tag's text as it stands beside it: the job number, then the hash in short lines to compare by eye.
std::string in_lines(const std::string& text) {
  constexpr std::size_t line = 16;
  const std::size_t hash = text.rfind(' ') + 1;
  std::string lines = text.substr(0, hash);
  for (std::size_t at = hash; at < text.size(); at += line)
    lines += "\n" + text.substr(at, line);
  return lines;
}

class FrontPage {
 public:
  FrontPage(PageFlow& flow, const BuildRecordInput& input) : flow_(flow), in_(input) {}

  void set() {
    title();
    fields(job_fields());
    flow_.advance(6);
    fields(make_up_fields());
    flow_.advance(10);
    counts();
    section();
    notes();
  }

 private:
  const std::string& label(Label l) const { return text_of(l, in_.language); }
  Canvas& canvas() { return flow_.canvas(); }

  void title() {
    const double right = flow_.left() + flow_.width();
    const std::string text = qr_text(in_.header.number, in_.record_hash);
    draw_qr(canvas(), {right - tag_size + 6, 30}, tag_size, text);
    const double tag_text_width = 124;
    canvas().text({right - tag_size - tag_text_width - 4, 40}, in_lines(text),
                  {6.6, Weight::regular, soft_ink, Align::right}, tag_text_width);
    const double width = flow_.width() - tag_size - tag_text_width - 16;
    double y = 38;
    y += canvas()
             .text({flow_.left(), y}, label(Label::build_record), {10, Weight::medium, soft_ink, Align::left})
             .height;
    y += canvas()
             .text({flow_.left(), y}, shortened(in_.header.number, 40, in_.language),
                   {23, Weight::bold, ink, Align::left}, width)
             .height;
    if (in_.header.invented) {
      const Type type{8, Weight::bold, unproven_colour, Align::left};
      const PageSize size = canvas().measure(label(Label::invented), type);
      canvas().rectangle({flow_.left(), y + 2, size.width + 14, size.height + 5},
                         {std::nullopt, Pen{unproven_colour, 1, {}}}, 3);
      canvas().text({flow_.left() + 7, y + 4.5}, label(Label::invented), type);
      y += size.height + 8;
    }
    flow_.advance(std::max(y, 32 + tag_size) + 8 - flow_.y());
    canvas().line({flow_.left(), flow_.y()}, {right, flow_.y()}, {ink, 1, {}});
    flow_.advance(8);
  }

  std::vector<Field> job_fields() const {
    const job::JobHeader& h = in_.header;
    return {{label(Label::customer), h.customer, 1},
            {label(Label::pump), h.pump, 2},
            {label(Label::serial), h.serial, 1},
            {label(Label::came_in_for), h.reason, 2},
            {label(Label::opened), moment_text(h.opened), 1},
            {label(Label::last_entry), moment_text(last_event(in_.state, h.opened)), 1}};
  }

  std::vector<Field> make_up_fields() const {
    const job::MakeUp& m = in_.snapshot.make_up;
    std::string driver = m.driver.frame;
    if (!m.driver.flange.empty()) driver += " " + m.driver.flange;
    driver += ", " + label(m.driver.shaft_up ? Label::shaft_up : Label::shaft_level);
    std::string seal = seal_kind_title(m.seal.kind).in(in_.language);
    if (!m.seal.elastomer.empty()) seal += ", " + m.seal.elastomer;
    seal += ", " + label(m.sleeve ? Label::mounted_on_sleeve : Label::mounted_on_shaft);
    if (!m.seal.lubricant.empty()) seal += "; " + fill(label(Label::seal_lubricant), m.seal.lubricant);
    return {{label(Label::driver), driver, 2},
            {label(Label::seal), seal, 2},
            {label(Label::service), service(m.service), 2},
            {label(Label::fastener), fastener(m), 1},
            {label(Label::speed), m.speed.unit == nullptr ? m.speed.text : written_text(m.speed), 1}};
  }

  std::string service(const job::Service& s) const {
    std::string line = job::wording::liquid_title(s.fluid).in(in_.language);
    if (s.temperature) line += ", " + written_text(*s.temperature);
    if (s.suction_pressure) line += ", " + fill(label(Label::suction), written_text(*s.suction_pressure));
    return line;
  }

  std::string fastener(const job::MakeUp& m) const {
    if (!m.fastener) return {};
    const job::Fastener& f = *m.fastener;
    std::string line = f.thread + ", " + f.grade;
    if (f.torque_lower && f.torque_upper)
      line += ", " + written_text(*f.torque_lower) + " … " + written_text(*f.torque_upper);
    return line;
  }

  // Fields in rows of four columns.
  void fields(const std::vector<Field>& all) {
    const Type name_type{7.2, Weight::regular, soft_ink, Align::left};
    const Type value_type{9, Weight::medium, ink, Align::left};
    const double column = flow_.width() / 4;
    int at = 0;
    double row_height = 0;
    for (const Field& field : all) {
      if (at + field.columns > 4) {
        flow_.advance(row_height + 5);
        at = 0;
        row_height = 0;
      }
      const double x = flow_.left() + at * column;
      const double width = field.columns * column - 10;
      const std::string value = field.value.empty()
                                    ? label(Label::not_stated)
                                    : shortened(field.value, field_characters_max, in_.language);
      double height = canvas().text({x, flow_.y()}, field.name, name_type, width).height;
      height += canvas().text({x, flow_.y() + height}, value, value_type, width).height;
      row_height = std::max(row_height, height);
      at += field.columns;
    }
    flow_.advance(row_height + 3);
  }

  void counts() {
    const job::Judgement& j = in_.judgement;
    struct Tile {
      job::Verdict verdict;
      int count;
      Label word;
    };
    const std::array<Tile, 4> tiles{Tile{job::Verdict::pass, j.passed, Label::count_pass},
                                    Tile{job::Verdict::fail, j.failed, Label::count_fail},
                                    Tile{job::Verdict::unproven, j.unproven, Label::count_unproven},
                                    Tile{job::Verdict::not_taken, j.not_taken, Label::count_not_taken}};
    const double height = 36;
    const double column = flow_.width() / 4;
    canvas().rectangle({flow_.left(), flow_.y(), flow_.width(), height}, {wash, std::nullopt}, 4);
    for (std::size_t i = 0; i < tiles.size(); ++i) {
      const double x = flow_.left() + double(i) * column + 12;
      const double middle = flow_.y() + height / 2;
      draw_verdict_mark(canvas(), {x + 8, middle}, 17, tiles[i].verdict);
      const PageSize number = canvas().text({x + 24, middle - 11.5}, std::to_string(tiles[i].count),
                                            {19, Weight::bold, ink, Align::left});
      canvas().text({x + 28 + number.width, middle - 4.2}, label(tiles[i].word),
                    {9, Weight::regular, ink, Align::left});
    }
    flow_.advance(height + 6);
    std::string summary = label(j.all_pass() ? Label::all_pass : Label::not_all_pass);
    if (j.open.empty()) summary += " " + label(Label::open_none);
    if (in_.state.deviations.empty()) summary += " " + label(Label::deviations_none);
    flow_.paragraph(summary, {9, Weight::bold, ink, Align::left});
  }

  void section() {
    flow_.heading(label(Label::half_section), 240);
    const double height = std::min(flow_.room() - 24, 430.0);
    const Box box{flow_.left(), flow_.y(), flow_.width(), height};
    const auto markers = section_markers(in_.snapshot.plan, in_.judgement, in_.section);
    flow_.advance(draw_section(canvas(), box, whole_view(in_.section, markers), in_.language).height);
  }

  void notes() {
    const Type type{7.6, Weight::regular, soft_ink, Align::left};
    flow_.advance(8);
    flow_.paragraph(label(Label::schematic_note), type);
    listed(Label::assumed_list, in_.section.assumed, type);
    listed(Label::set_aside_list, in_.section.set_aside, type);
  }

  void listed(Label sentence, const std::vector<std::string>& dimensions, const Type& type) {
    if (dimensions.empty()) return;
    std::string names;
    for (const std::string& dimension : dimensions)
      names += (names.empty() ? "" : ", ") + dimension_title(dimension).in(in_.language);
    flow_.paragraph(fill(label(sentence), names), type);
  }

  PageFlow& flow_;
  const BuildRecordInput& in_;
};

}  // namespace

void set_front_page(PageFlow& flow, const BuildRecordInput& input) {
  FrontPage(flow, input).set();
}

}  // namespace pumpwright::report
