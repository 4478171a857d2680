#include "report/build_record.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "job/sheets/sheet_result.h"
#include "report/chain_bar.h"
#include "report/face_picture.h"
#include "report/labels.h"
#include "report/page_flow.h"
#include "report/palette.h"
#include "report/polar_plot.h"
#include "report/record_front.h"
#include "report/record_text.h"
#include "report/section_drawing.h"
#include "report/sheet_drawing.h"
#include "report/true_drawing.h"
#include "report/verdict_table.h"

namespace pumpwright::report {
namespace {

Type body() {
  return {8.4, Weight::regular, ink, Align::left};
}
Type strong() {
  return {8.4, Weight::bold, ink, Align::left};
}
Type small() {
  return {7.4, Weight::regular, soft_ink, Align::left};
}

constexpr std::size_t text_characters_max = 600;

// One composition of the whole record; run twice, the second time knowing how many pages there are.
class Composition {
 public:
  Composition(const BuildRecordInput& input, PdfDocument& document, int pages_in_all)
      : in_(input), flow_(document, page_size(input.paper), furniture(), pages_in_all) {}

  int run() {
    set_front_page(flow_, in_);
    open_points();
    deviations();
    seal_detail();
    set_verdict_table(flow_, in_);
    seal_service();
    bench_tests();
    true_running();
    sweeps();
    chains();
    replaced();
    holds();
    signatures();
    flow_.finish();
    return flow_.page();
  }

 private:
  const std::string& label(Label l) const { return text_of(l, in_.language); }
  std::string cut(const std::string& text) const {
    return shortened(text, text_characters_max, in_.language);
  }

  PageFurniture furniture() const {
    const std::string job = label(Label::job) + " " + shortened(in_.header.number, 40, in_.language);
    const std::string hash = in_.record_hash.substr(0, 12);
    return {label(Label::build_record) + " · " + job, shortened(in_.header.pump, 60, in_.language),
            job + " · " + hash, in_.header.invented ? label(Label::invented) : "", label(Label::page_of)};
  }

  std::string check_title(const std::string& id) const {
    const job::Check* check = in_.snapshot.plan.find(id);
    return check == nullptr ? id : check->title.in(in_.language);
  }

  std::string step_title(const std::string& id) const {
    const job::Step* step = in_.snapshot.plan.step(id);
    return step == nullptr ? id : step->title.in(in_.language);
  }

  // A point of a list: what it is about in bold, what is said about it beneath.
  void item(const std::string& head, const std::string& text, const std::string& beside = {}) {
    const double indent = 10;
    const double width = flow_.width() - indent;
    Canvas& canvas = flow_.canvas();
    const double height = canvas.measure(head, strong(), width).height +
                          (text.empty() ? 0 : canvas.measure(text, body(), width).height + 1) +
                          (beside.empty() ? 0 : canvas.measure(beside, small(), width).height + 1);
    flow_.keep_together(height + 5);
    flow_.canvas().rectangle({flow_.left(), flow_.y() + 3.2, 4, 4}, {ink, std::nullopt});
    flow_.paragraph(head, strong(), indent);
    if (!text.empty()) flow_.paragraph(text, body(), indent);
    if (!beside.empty()) flow_.paragraph(beside, small(), indent);
    flow_.advance(5);
  }

  // The front page says when nothing is open and nothing was accepted; a heading over nothing is left out.
  void open_points() {
    if (in_.judgement.open.empty()) return;
    flow_.heading(label(Label::open_points), 30);
    for (const job::OpenPoint& point : in_.judgement.open)
      item(cut(point.check.empty() ? step_title(point.step) : check_title(point.check)),
           cut(point.what.in(in_.language)));
  }

  void deviations() {
    if (in_.state.deviations.empty()) return;
    flow_.heading(label(Label::deviations), 30);
    for (const auto& [check, accepted] : in_.state.deviations)
      item(cut(check_title(check)), cut(accepted.reason),
           by_and_when(Label::deviation_line, accepted.actor, accepted.time));
  }

  std::string by_and_when(Label sentence, const std::string& actor, job::UtcTime time) const {
    return fill(fill(label(sentence), actor), moment_text(time));
  }

  void seal_detail() {
    flow_.heading(label(Label::seal_detail), 310);
    const Box box{flow_.left(), flow_.y(), flow_.width(), std::min(flow_.room(), 310.0)};
    const SectionView view =
        seal_view(in_.section, section_markers(in_.snapshot.plan, in_.judgement, in_.section));
    flow_.advance(draw_section(flow_.canvas(), box, view, in_.language).height);
  }

  void seal_service() {
    const auto picture = face_picture(in_.snapshot, in_.state, in_.language);
    if (!picture) return;
    flow_.heading(label(Label::seal_service), face_height(*picture) + 30);
    flow_.paragraph(label(Label::seal_service_note), small());
    flow_.advance(8);
    draw_face(flow_.canvas(), {flow_.left(), flow_.y()}, flow_.width(), *picture);
    flow_.advance(face_height(*picture) + 8);
  }

  // Every line of what a test came to, once for each reading.
  void bench_tests() {
    bool headed = false;
    for (const job::CheckFinding& finding : in_.judgement.findings) {
      const job::Check* check = in_.snapshot.plan.find(finding.check);
      if (check == nullptr || !check->sheet || !check->from.empty()) continue;
      for (const job::JudgedReading& judged : finding.readings) {
        if (!judged.sheet) continue;
        if (!headed) {
          flow_.heading(label(Label::bench_tests), 80);
          flow_.paragraph(label(Label::bench_tests_note), small());
          flow_.advance(6);
        }
        headed = true;
        item(cut(check->title.in(in_.language)), lines_text(*judged.sheet), cut(judged.as_written));
        test_picture(*judged.sheet);
      }
    }
  }

  void test_picture(const job::SheetResult& result) {
    const auto picture = job::picture_of(result);
    if (!picture) return;
    constexpr double width = 300;
    const double height = sheet_picture_height(flow_.canvas(), width, *picture, in_.language);
    flow_.keep_together(height);
    draw_sheet_picture(flow_.canvas(), {flow_.left(), flow_.y()}, width, *picture, in_.language);
    flow_.advance(height + 10);
  }

  std::string lines_text(const job::SheetResult& result) const {
    std::string text;
    for (const job::SheetLine& line : job::lines_of(result))
      text += fmt::format("{}{}: {}", text.empty() ? "" : "\n", line.name.in(in_.language),
                          line.value.in(in_.language));
    return text;
  }

  void true_running() {
    const auto drawings = true_drawings(in_.snapshot, in_.state, in_.judgement, in_.language);
    if (drawings.empty()) return;
    const auto height = [&](const TrueDrawing& d) { return true_height(flow_.canvas(), flow_.width(), d); };
    flow_.heading(label(Label::true_running), height(drawings.front()) + 40);
    flow_.paragraph(label(Label::true_running_note), small());
    flow_.advance(8);
    for (const auto& drawing : drawings) {
      flow_.keep_together(height(drawing));
      draw_true(flow_.canvas(), {flow_.left(), flow_.y()}, flow_.width(), drawing);
      flow_.advance(height(drawing) + 12);
    }
  }

  // Two pictures side by side, with every reading of the sweep as it was written beneath.
  void sweeps() {
    std::vector<PolarPlot> plots = polar_plots(in_.snapshot.plan, in_.state, in_.judgement, in_.language);
    if (plots.empty()) return;
    constexpr double gutter = 24;
    const double width = (flow_.width() - gutter) / 2;
    const auto height = [&](const PolarPlot& plot) {
      return polar_height(flow_.canvas(), width, plot, in_.language);
    };
    flow_.heading(label(Label::sweeps), height(plots.front()) + 60);
    flow_.paragraph(label(Label::sweeps_note), small());
    flow_.advance(8);
    key_to_pictures();
    for (std::size_t i = 0; i < plots.size(); i += 2) {
      double tallest = height(plots[i]);
      if (i + 1 < plots.size()) tallest = std::max(tallest, height(plots[i + 1]));
      flow_.keep_together(tallest);
      for (std::size_t k = i; k < std::min(i + 2, plots.size()); ++k)
        draw_polar(flow_.canvas(), {flow_.left() + double(k - i) * (width + gutter), flow_.y()}, width,
                   plots[k], in_.language);
      flow_.advance(tallest + 12);
    }
  }

  // What the lines of the polar pictures are.
  void key_to_pictures() {
    Canvas& canvas = flow_.canvas();
    double x = flow_.left();
    const double y = flow_.y();
    const auto entry = [&](Label words, const std::function<void(double, double)>& sample) {
      sample(x, y + 4.5);
      x += 20 + canvas.text({x + 20, y}, label(words), small()).width + 14;
    };
    entry(Label::mean_circle, [&](double sx, double sy) {
      canvas.line({sx, sy}, {sx + 15, sy}, {soft_ink, 0.6, {2, 2}});
    });
    entry(Label::fitted_circle, [&](double sx, double sy) {
      canvas.line({sx, sy}, {sx + 15, sy}, {fit_line, 1, {}});
      canvas.circle({sx + 7.5, sy}, 1.9, {fit_line, std::nullopt});
    });
    entry(Label::limit_band_tir, [&](double sx, double sy) {
      canvas.rectangle({sx, sy - 3.5, 15, 7}, {limit_fill, Pen{limit_line, 0.7, {}}});
    });
    entry(Label::high_spot, [&](double sx, double sy) {
      const std::array<Point, 3> head{Point{sx + 15, sy}, Point{sx + 8, sy - 3}, Point{sx + 8, sy + 3}};
      canvas.line({sx, sy}, {sx + 9, sy}, {ink, 1.1, {}});
      canvas.polygon(head, {ink, std::nullopt});
    });
    entry(Label::suspect, [&](double sx, double sy) {
      canvas.rectangle({sx + 3, sy - 4.5, 9, 9}, {std::nullopt, Pen{fail_colour, 1.1, {}}});
      canvas.circle({sx + 7.5, sy}, 1.9, {ink, std::nullopt});
    });
    entry(Label::gap, [&](double sx, double sy) {
      canvas.rectangle({sx, sy - 3.5, 15, 7}, {gap_fill, std::nullopt});
    });
    flow_.advance(18);
  }

  void chains() {
    const std::vector<ChainBar> bars = chain_bars(in_.snapshot.plan, in_.judgement, in_.language);
    if (bars.empty()) return;
    flow_.heading(label(Label::chains), chain_height(flow_.canvas(), flow_.width(), bars.front()));
    for (const ChainBar& bar : bars) {
      const double height = chain_height(flow_.canvas(), flow_.width(), bar);
      flow_.keep_together(height);
      draw_chain(flow_.canvas(), {flow_.left(), flow_.y()}, flow_.width(), bar, in_.language);
      flow_.advance(height + 10);
    }
  }

  const std::string& replacing(const std::string& id) const {
    static const std::string unknown = "?";
    for (const auto& [check, readings] : in_.state.standing)
      for (const job::Reading& reading : readings)
        if (reading.replaces == id) return reading.id;
    for (const job::Reading& reading : in_.state.replaced)
      if (reading.replaces == id) return reading.id;
    return unknown;
  }

  std::string why_replaced(const std::string& id) const {
    if (in_.state.before_remedy.count(id) != 0) return std::string(label(Label::before_remedy));
    return fill(label(Label::replaced_by), replacing(id));
  }

  void replaced() {
    flow_.heading(label(Label::replaced), 30);
    if (in_.state.replaced.empty()) flow_.paragraph(label(Label::replaced_none), body());
    for (const job::Reading& reading : in_.state.replaced)
      item(cut(check_title(reading.check)), cut(reading_as_written(reading, in_.language)),
           reading.id + " · " + reading_circumstances(reading) + " · " + why_replaced(reading.id));
  }

  void holds() {
    flow_.heading(label(Label::holds), 30);
    if (in_.state.holds_released.empty()) flow_.paragraph(label(Label::holds_none), body());
    for (const auto& [step, released] : in_.state.holds_released)
      item(cut(step_title(step)), {}, by_and_when(Label::hold_line, released.actor, released.time));
  }

  void signatures() {
    flow_.heading(label(Label::signatures), 150);
    flow_.paragraph(label(Label::signatures_note), small());
    flow_.advance(6);
    const std::array<double, 4> shares{0.2, 0.27, 0.18, 0.35};
    const std::array<Label, 4> heads{Label::role, Label::name_initials, Label::date, Label::signature};
    signature_row({label(heads[0]), label(heads[1]), label(heads[2]), label(heads[3])}, shares, 15, small());
    for (const Label role : {Label::technician, Label::lead_hand})
      signature_row({label(role), "", "", ""}, shares, 34, strong());
    flow_.advance(10);
    flow_.paragraph(label(Label::record_hash) + ": " + in_.record_hash, small());
    flow_.paragraph(label(Label::made_with) + ": " + in_.snapshot.program, small());
    flow_.paragraph(label(Label::catalog_digest) + ": " + in_.snapshot.catalog_digest, small());
  }

  void signature_row(const std::array<std::string, 4>& cells, const std::array<double, 4>& shares,
                     double height, const Type& type) {
    double x = flow_.left();
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const double width = shares[i] * flow_.width();
      flow_.canvas().rectangle({x, flow_.y(), width, height}, {std::nullopt, Pen{soft_ink, 0.6, {}}});
      if (!cells[i].empty()) {
        const double text = flow_.canvas().measure(cells[i], type, width - 10).height;
        flow_.canvas().text({x + 6, flow_.y() + (height - text) / 2}, cells[i], type, width - 10);
      }
      x += width;
    }
    flow_.advance(height);
  }

  const BuildRecordInput& in_;
  PageFlow flow_;
};

DocumentFacts facts_of(const BuildRecordInput& in) {
  const auto label = [&](Label l) { return text_of(l, in.language); };
  DocumentFacts facts;
  facts.title = label(Label::build_record) + " " + in.header.number;
  facts.author = label(Label::author_role);
  facts.subject = fill(fill(label(Label::subject_line), in.header.number), in.header.pump);
  facts.keywords = in.header.number + ", " + in.header.serial + ", " + in.record_hash;
  facts.date = job::format_utc_time(last_event(in.state, in.header.opened));
  return facts;
}

}  // namespace

Paper paper_of(std::string_view word) {
  return word == "letter" ? Paper::letter : Paper::a4;
}

PageSize page_size(Paper paper) {
  return paper == Paper::letter ? PageSize{612, 792} : PageSize{595.276, 841.89};
}

std::string build_record_pdf(const BuildRecordInput& input) {
  const auto compose = [&](int pages_in_all, int& pages) {
    PdfDocument document(page_size(input.paper), facts_of(input));
    pages = Composition(input, document, pages_in_all).run();
    return document.finish();
  };
  int pages = 0;
  compose(0, pages);
  return compose(pages, pages);
}

}  // namespace pumpwright::report
