#include "engine/assembly/iso286.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/assembly/iso286_tables.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

using iso286::Entry;

constexpr const char* grade_source = "ISO 286-1:2010, Table 1, as restated in a public table of IT1 to IT14";

double mm_of(Length size) {
  return size.value() * 1000;
}
Length micrometres(double um) {
  return metres(um * 1e-6);
}

// Index of the first step that is not below the size. A size a nanometre over a step's end still counts as
// that end: it is the rounding of a conversion, not a larger size.
std::size_t step_index(std::span<const double> steps_mm, double size_mm) {
  const auto at = std::lower_bound(steps_mm.begin(), steps_mm.end(), size_mm - 1e-6);
  return static_cast<std::size_t>(at - steps_mm.begin());
}

void require_basic_size(Length basic) {
  const double size_mm = mm_of(basic);
  if (!(size_mm > 0 && size_mm <= iso286::main_steps_mm.back() + 1e-6))
    throw BadInput({"basic size", "", fmt::format("{:.9g} mm", size_mm), "a size over 0 up to 250 mm"});
}

double it_um(Length basic, int grade) {
  require_basic_size(basic);
  if (grade < iso286::first_grade || grade > iso286::last_grade)
    throw BadInput({"grade", "", fmt::format("IT{}", grade),
                    fmt::format("IT{} to IT{}", iso286::first_grade, iso286::last_grade)});
  const auto column = static_cast<std::size_t>(grade - iso286::first_grade);
  return iso286::standard_tolerance_um[step_index(iso286::main_steps_mm, mm_of(basic))][column];
}

// "f5-f10, g5-g10 ..." from the table of what is held.
std::string held_classes_text() {
  std::string text;
  for (const auto& held : iso286::held_classes)
    text += fmt::format("{}{}{}-{}{}", text.empty() ? "" : ", ", held.letters, held.lowest_grade,
                        held.letters, held.highest_grade);
  return text;
}

void require_held(const ToleranceClass& c) {
  for (const auto& held : iso286::held_classes)
    if (c.letters == held.letters && c.grade >= held.lowest_grade && c.grade <= held.highest_grade) return;
  throw BadInput({"tolerance class", "", fmt::format("{}{}", c.letters, c.grade),
                  "a class held here: " + held_classes_text()});
}

const iso286::ShaftLetter& shaft_letter(const std::string& letters) {
  const auto row = std::find_if(iso286::shaft_letters.begin(), iso286::shaft_letters.end(),
                                [&](const auto& candidate) { return letters == candidate.letters; });
  assert(row != iso286::shaft_letters.end());
  return *row;
}

Entry main_step(const std::array<Entry, 10>& column, Length basic) {
  return column[step_index(iso286::main_steps_mm, mm_of(basic))];
}

LimitDeviations from_lower(double lower_um, double width_um, HowKnown how, std::string source) {
  return {micrometres(lower_um), micrometres(lower_um + width_um), how, std::move(source)};
}
LimitDeviations from_upper(double upper_um, double width_um, HowKnown how, std::string source) {
  return {micrometres(upper_um - width_um), micrometres(upper_um), how, std::move(source)};
}

LimitDeviations symmetric(Length basic, const ToleranceClass& c) {
  const double width_um = it_um(basic, c.grade);
  return from_lower(-width_um / 2, width_um, HowKnown::read, grade_source);
}

LimitDeviations shaft_deviations(Length basic, const ToleranceClass& c) {
  const double width_um = it_um(basic, c.grade);
  if (c.letters == "js") return symmetric(basic, c);
  if (c.letters == "j") {
    const Entry e = main_step(iso286::shaft_j_um, basic);
    return from_lower(e.um, width_um, e.how, iso286::shaft_j_source);
  }
  if (c.letters == "s") {
    const Entry e = iso286::shaft_s_um[step_index(iso286::fine_steps_mm, mm_of(basic))];
    return from_lower(e.um, width_um, e.how, iso286::shaft_s_source);
  }
  const iso286::ShaftLetter& row = shaft_letter(c.letters);
  const Entry e = main_step(row.um, basic);
  const bool below_zero_line = c.letters == "f" || c.letters == "g" || c.letters == "h";
  return below_zero_line ? from_upper(e.um, width_um, e.how, row.source)
                         : from_lower(e.um, width_um, e.how, row.source);
}

// K to P: the shaft letter's deviation with its sign changed, shifted by Delta = IT(n) - IT(n-1) up to
// `last_shifted_grade`.
LimitDeviations mirrored_upper(Length basic, const ToleranceClass& c, const Entry& shaft,
                               int last_shifted_grade, const std::string& source) {
  const double width_um = it_um(basic, c.grade);
  const bool shifted = c.grade <= last_shifted_grade && mm_of(basic) > iso286::main_steps_mm.front() + 1e-6;
  const double delta_um = shifted ? width_um - it_um(basic, c.grade - 1) : 0.0;
  return from_upper(-shaft.um + delta_um, width_um, weaker(shaft.how, HowKnown::computed), source);
}

LimitDeviations hole_deviations(Length basic, const ToleranceClass& c) {
  const double width_um = it_um(basic, c.grade);
  if (c.letters == "JS") return symmetric(basic, c);
  if (c.letters == "H") return from_lower(0, width_um, HowKnown::read, grade_source);
  if (c.letters == "J") {
    const Entry e = main_step(iso286::hole_j_um[static_cast<std::size_t>(c.grade - 6)], basic);
    return from_upper(e.um, width_um, e.how, iso286::hole_j_source);
  }
  const std::string small(1, static_cast<char>(c.letters[0] - 'A' + 'a'));
  const iso286::ShaftLetter& row = shaft_letter(small);
  const Entry e = main_step(row.um, basic);
  const std::string source =
      fmt::format("from {} by the rules of ISO 286-1:2010, 4.3.2; {}", small, row.source);
  if (c.letters == "F" || c.letters == "G")
    return from_lower(-e.um, width_um, weaker(e.how, HowKnown::computed), source);
  // N above IT8 lies wholly below the zero line, except in the smallest step (ISO 286-1, remembered).
  if (c.letters == "N" && c.grade > 8)
    return from_upper(mm_of(basic) > iso286::main_steps_mm.front() + 1e-6 ? 0 : -4, width_um,
                      HowKnown::remembered, source);
  return mirrored_upper(basic, c, e, c.letters == "P" ? 7 : 8, source);
}

std::span<const double> steps_of(const iso286::HeldClasses& held) {
  if (held.fine_steps) return iso286::fine_steps_mm;
  return iso286::main_steps_mm;
}

// Reads a text from the front.
class Scanner {
 public:
  explicit Scanner(const std::string& text) : text_(text) {}

  void skip_blanks() {
    while (at_ < text_.size() && text_[at_] == ' ')
      ++at_;
  }
  bool at_end() const { return at_ == text_.size(); }

  template <class Accept>
  std::string take_while(Accept accept) {
    const std::size_t from = at_;
    while (at_ < text_.size() && accept(text_[at_]))
      ++at_;
    return text_.substr(from, at_ - from);
  }
  bool take(const std::string& word) {
    if (text_.compare(at_, word.size(), word) != 0) return false;
    at_ += word.size();
    return true;
  }

 private:
  const std::string& text_;
  std::size_t at_ = 0;
};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

std::optional<double> number_from(const std::string& digits) {
  const std::size_t point = digits.find_first_of(".,");
  const std::string whole = digits.substr(0, point);
  const std::string fraction = point == std::string::npos ? "" : digits.substr(point + 1);
  const bool plain = !whole.empty() && whole.size() <= 4 && fraction.size() <= 6 &&
                     fraction.find_first_of(".,") == std::string::npos;
  const bool ambiguous = point != std::string::npos && digits[point] == ',' && fraction.size() == 3;
  const bool dangling = point != std::string::npos && fraction.empty();
  if (!plain || ambiguous || dangling) return std::nullopt;
  return std::stod(whole + "." + (fraction.empty() ? "0" : fraction));
}

std::optional<ToleranceClass> class_from(Scanner& scanner) {
  ToleranceClass c;
  c.letters = scanner.take_while(is_letter);
  const std::string grade = scanner.take_while(is_digit);
  if (c.letters.empty() || grade.empty() || grade.size() > 2) return std::nullopt;
  c.grade = std::stoi(grade);
  return c;
}

std::optional<FitDesignation> designation_from(const std::string& text) {
  Scanner scanner(text);
  FitDesignation fit;
  scanner.skip_blanks();
  const auto size_mm =
      number_from(scanner.take_while([](char c) { return is_digit(c) || c == '.' || c == ','; }));
  if (!size_mm) return std::nullopt;
  fit.basic = metres(*size_mm / 1000);
  scanner.skip_blanks();
  if (scanner.take("mm ")) scanner.skip_blanks();
  auto first = class_from(scanner);
  if (!first) return std::nullopt;
  (first->is_hole() ? fit.hole : fit.shaft) = first;
  scanner.skip_blanks();
  if (first->is_hole() && (scanner.take("/") || scanner.take("-"))) {
    scanner.skip_blanks();
    fit.shaft = class_from(scanner);
    if (!fit.shaft || fit.shaft->is_hole()) return std::nullopt;
    scanner.skip_blanks();
  }
  if (!scanner.at_end()) return std::nullopt;
  return fit;
}

}  // namespace

StandardTolerance standard_tolerance(Length basic, int grade) {
  return {micrometres(it_um(basic, grade)), HowKnown::read, grade_source};
}

LimitDeviations limit_deviations(Length basic, const ToleranceClass& tolerance_class) {
  require_basic_size(basic);
  require_held(tolerance_class);
  return tolerance_class.is_hole() ? hole_deviations(basic, tolerance_class)
                                   : shaft_deviations(basic, tolerance_class);
}

SizeLimits limits_of(Length basic, const ToleranceClass& tolerance_class) {
  const LimitDeviations d = limit_deviations(basic, tolerance_class);
  return {basic + d.lower, basic + d.upper};
}

FitDesignation parse_fit(const std::string& text, const std::string& field) {
  const auto fit = text.size() <= 40 ? designation_from(text) : std::nullopt;
  if (!fit) throw BadInput({field, "", text, "a size in mm with a class, such as 50 H7/g6, 50 H7 or 25 k6"});
  return *fit;
}

std::vector<Iso286Row> all_iso286_rows() {
  std::vector<Iso286Row> rows;
  for (const auto& held : iso286::held_classes)
    for (int grade = held.lowest_grade; grade <= held.highest_grade; ++grade) {
      const ToleranceClass c{held.letters, grade};
      double over_mm = 0;
      for (const double to_mm : steps_of(held)) {
        rows.push_back(
            {metres(over_mm / 1000), metres(to_mm / 1000), c, limit_deviations(metres(to_mm / 1000), c)});
        over_mm = to_mm;
      }
    }
  return rows;
}

}  // namespace pumpwright
