#include "report/verdict_table.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "report/amount_text.h"
#include "report/labels.h"
#include "report/palette.h"
#include "report/record_text.h"
#include "report/verdict_mark.h"

namespace pumpwright::report {
namespace {

constexpr std::size_t cell_characters_max = 420;

struct Piece {
  std::string text;
  Type type;
};
using Cell = std::vector<Piece>;

Type plain() {
  return {8, Weight::regular, ink, Align::left};
}
Type strong() {
  return {8, Weight::bold, ink, Align::left};
}
Type small() {
  return {7.2, Weight::regular, soft_ink, Align::left};
}

struct Row {
  job::Verdict verdict = job::Verdict::not_taken;
  bool deviation_accepted = false;
  std::array<Cell, 5> cells;
  std::vector<std::string> beneath;  // lines over the whole width, each may stand on the next page
};

constexpr std::array<double, 5> shares{0.12, 0.225, 0.25, 0.255, 0.15};
constexpr double gutter = 8;
constexpr double pad = 4.5;

class VerdictTable {
 public:
  VerdictTable(PageFlow& flow, const BuildRecordInput& input) : flow_(flow), in_(input) {}

  void set() {
    flow_.heading(label(Label::verdict_table), 90);
    head();
    std::optional<job::Stage> stage;
    for (const job::Step& step : in_.snapshot.plan.steps)
      for (const job::Check& check : step.checks) {
        const job::CheckFinding* finding = in_.judgement.find(check.id);
        if (finding == nullptr) continue;
        std::vector<Row> rows = rows_for(check, *finding);
        if (stage != step.stage) {
          stage = step.stage;
          stage_band(job::title_of(step.stage).in(in_.language), row_height(rows.front()));
        }
        for (const Row& row : rows)
          set_row(row);
      }
    flow_.advance(4);
    flow_.paragraph(label(Label::two_sigma), small());
  }

 private:
  const std::string& label(Label l) const { return text_of(l, in_.language); }
  std::string cut(const std::string& text) const {
    return shortened(text, cell_characters_max, in_.language);
  }

  double cell_x(std::size_t i) const {
    double x = flow_.left();
    for (std::size_t k = 0; k < i; ++k)
      x += shares[k] * flow_.width();
    return x;
  }
  double cell_width(std::size_t i) const { return shares[i] * flow_.width() - gutter; }

  void head() {
    constexpr std::array labels{Label::column_verdict, Label::column_check, Label::column_reading,
                                Label::column_limit, Label::column_uncertainty};
    const Type type{7.2, Weight::medium, soft_ink, Align::left};
    double height = 0;
    for (std::size_t i = 0; i < labels.size(); ++i)
      height = std::max(height, flow_.canvas().measure(label(labels[i]), type, cell_width(i)).height);
    for (std::size_t i = 0; i < labels.size(); ++i)
      flow_.canvas().text({cell_x(i), flow_.y()}, label(labels[i]), type, cell_width(i));
    flow_.advance(height + 3);
    rule(ink, 0.8);
  }

  void rule(Colour colour, double width) {
    flow_.canvas().line({flow_.left(), flow_.y()}, {flow_.left() + flow_.width(), flow_.y()},
                        {colour, width, {}});
  }

  // Goes on on the next page, under the table's head, when there is no room for `height`.
  void make_room(double height) {
    if (flow_.keep_together(height)) head();
  }

  void stage_band(const std::string& title, double next_row) {
    make_room(20 + next_row);
    flow_.canvas().rectangle({flow_.left(), flow_.y(), flow_.width(), 15}, {wash, std::nullopt});
    flow_.canvas().text({flow_.left() + 5, flow_.y() + 2.2}, title, {8, Weight::bold, ink, Align::left});
    flow_.advance(15);
  }

  double cell_height(const Cell& cell, double width) const {
    double height = 0;
    for (const Piece& piece : cell)
      height += flow_.canvas().measure(piece.text, piece.type, width).height + 1;
    return height;
  }

  double width_in(std::size_t column) const { return column == 0 ? cell_width(0) - 14 : cell_width(column); }

  double row_height(const Row& row) const {
    double height = 12;
    for (std::size_t i = 0; i < row.cells.size(); ++i)
      height = std::max(height, cell_height(row.cells[i], width_in(i)));
    return height + 2 * pad;
  }

  void set_row(const Row& row) {
    const double height = row_height(row);
    make_room(height);
    const double top = flow_.y() + pad;
    draw_verdict_mark(flow_.canvas(), {flow_.left() + 5.5, top + 5}, 9, row.verdict, row.deviation_accepted);
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      double y = top;
      for (const Piece& piece : row.cells[i])
        y += flow_.canvas()
                 .text({cell_x(i) + (i == 0 ? 14 : 0), y}, piece.text, piece.type, width_in(i))
                 .height +
             1;
    }
    flow_.advance(height);
    for (const std::string& line : row.beneath)
      set_beneath(line);
    if (!row.beneath.empty()) flow_.advance(2);
    rule(hair, 0.5);
  }

  void set_beneath(const std::string& line) {
    const double indent = shares[0] * flow_.width();
    const double height = flow_.canvas().measure(line, small(), flow_.width() - indent).height;
    make_room(height + 2);
    flow_.canvas().text({flow_.left() + indent, flow_.y() - 2}, line, small(), flow_.width() - indent);
    flow_.advance(height + 1);
  }

  std::vector<Row> rows_for(const job::Check& check, const job::CheckFinding& finding) const {
    std::vector<Row> rows;
    const job::JudgedReading none{};
    if (finding.readings.empty())
      rows.push_back(row_for(check, finding, none, finding.verdict, finding.reason));
    for (const job::JudgedReading& judged : finding.readings)
      rows.push_back(row_for(check, finding, judged, judged.verdict, judged.reason));
    std::vector<std::string>& beneath = rows.back().beneath;
    for (std::size_t i = 1; i < check.limits.size(); ++i)
      beneath.push_back(label(Label::also_known) + ": " + limit_text(check.limits[i]) + " · " +
                        who_and_where(check.limits[i]));
    if (finding.verdict == job::Verdict::fail && !check.if_it_fails.empty())
      beneath.push_back(fill(label(Label::what_to_do), check.if_it_fails.in(in_.language)));
    return rows;
  }

  Row row_for(const job::Check& check, const job::CheckFinding& finding, const job::JudgedReading& judged,
              job::Verdict verdict, job::Reason reason) const {
    const job::Reading* reading = find_reading(in_.state, judged.reading_id);
    Row row;
    row.verdict = verdict;
    row.deviation_accepted = finding.deviation_accepted && verdict != job::Verdict::pass;
    row.cells = {verdict_cell(verdict, row.deviation_accepted), check_cell(check, verdict, reason),
                 reading_cell(check, judged, reading), limit_cell(check, job::unit_to_show(check, judged)),
                 uncertainty_cell(check, judged)};
    for (const job::Text& remark : judged.remarks)
      row.beneath.push_back(cut(remark.in(in_.language)));
    if (judged.settle)
      row.beneath.push_back(fill(label(Label::settle), judged.settle->text.in(in_.language)));
    return row;
  }

  Cell verdict_cell(job::Verdict verdict, bool accepted) const {
    Cell cell{{job::title_of(verdict).in(in_.language), {8, Weight::bold, colour_of(verdict), Align::left}}};
    if (accepted) cell.push_back({label(Label::deviation_accepted), small()});
    return cell;
  }

  Cell check_cell(const job::Check& check, job::Verdict verdict, job::Reason reason) const {
    Cell cell{{cut(check.title.in(in_.language)), strong()}};
    if (verdict != job::Verdict::not_taken || reason != job::Reason::not_taken)
      cell.push_back({job::title_of(reason).in(in_.language), small()});
    return cell;
  }

  Cell reading_cell(const job::Check& check, const job::JudgedReading& judged,
                    const job::Reading* reading) const {
    Cell cell;
    // Of a sheet the judge says in one line what was read; all of it stands with the bench tests.
    const bool in_short = reading == nullptr || (check.sheet && !judged.as_written.empty());
    const std::string written = in_short ? judged.as_written : reading_as_written(*reading, in_.language);
    if (!written.empty()) cell.push_back({cut(written), plain()});
    if (judged.value && check.judged != job::Judged::confirmed) {
      const Unit& unit = job::unit_to_show(check, judged);
      std::string line = judged_text(judged, unit);
      if (const Unit* metric = metric_beside(unit, *judged.value))
        line += " = " + judged_text(judged, *metric);
      cell.push_back({line, strong()});
    }
    if (reading != nullptr) cell.push_back({reading_circumstances(*reading), small()});
    if (cell.empty()) cell.push_back({"–", plain()});
    return cell;
  }

  // With the digits of the instrument, or of the doubt where no instrument was read.
  static std::string judged_text(const job::JudgedReading& judged, const Unit& unit) {
    if (judged.instrument_graduation_si > 0)
      return value_text(*judged.value, unit, judged.instrument_graduation_si);
    return doubtful_text(*judged.value, unit, 2 * judged.standard_uncertainty.value_or(0));
  }

  std::string who_and_where(const job::Limit& limit) const {
    const Source& source = limit.source;
    std::string line = job::title_of(limit.rank).in(in_.language) + " · " + source.document;
    if (!source.edition.empty()) line += ", " + source.edition;
    if (!source.clause.empty()) line += ", " + source.clause;
    line += " (" + job::title_of(source.obtained).in(in_.language) + ")";
    return cut(line);
  }

  Cell limit_cell(const job::Check& check, const Unit& shown_in) const {
    if (check.kind == job::CheckKind::confirmation) return {{"–", plain()}};
    if (check.limits.empty()) return {{label(Label::no_limit), small()}};
    const job::Limit& limit = check.limits.front();
    if (!limit.lower && !limit.upper)
      return {{job::asked_by(limit).in(in_.language), strong()}, {who_and_where(limit), small()}};
    Cell cell{{limit_text(limit), strong()}};
    const std::string same = limit_text_in(limit, shown_in);
    if (!same.empty()) cell.push_back({same, plain()});
    const AnyQuantity size(check.quantity, limit.upper ? limit.upper->si : limit.lower ? limit.lower->si : 0);
    if (const Unit* metric = metric_beside(shown_in, size)) {
      const std::string in_metric = limit_text_in(limit, *metric);
      if (!in_metric.empty()) cell.push_back({in_metric, plain()});
    }
    cell.push_back({who_and_where(limit), small()});
    cell.push_back({limit.decision.rule == job::Rule::guarded
                        ? label(Label::guarded)
                        : fill(label(Label::simple), fmt::format("{:g}", limit.decision.ratio)),
                    small()});
    return cell;
  }

  Cell uncertainty_cell(const job::Check& check, const job::JudgedReading& judged) const {
    Cell cell;
    if (judged.standard_uncertainty && *judged.standard_uncertainty > 0)
      cell.push_back(
          {plus_minus_text(2 * *judged.standard_uncertainty, job::unit_to_show(check, judged)), plain()});
    if (judged.conformance_probability) {
      const double percent = 100 * *judged.conformance_probability;
      // Never rounded up to certainty.
      const std::string shown = percent > 99.9  ? "> 99.9 %"
                                : percent < 0.1 ? "< 0.1 %"
                                                : fmt::format("{:.1f} %", percent);
      cell.push_back({fill(label(Label::conforms_with), shown), small()});
    }
    return cell;
  }

  PageFlow& flow_;
  const BuildRecordInput& in_;
};

}  // namespace

void set_verdict_table(PageFlow& flow, const BuildRecordInput& input) {
  VerdictTable(flow, input).set();
}

}  // namespace pumpwright::report
