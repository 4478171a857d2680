#include "cli/fit_size.h"

#include <array>
#include <cctype>
#include <span>
#include <vector>

#include "cli/command.h"
#include "engine/assembly/iso286.h"
#include "engine/quantity/parse.h"

namespace pumpwright {
namespace {

constexpr std::string_view plus_minus = "±";
constexpr std::string_view typographic_minus = "−";

bool is_letter(char c) {
  return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

bool is_digit(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

// Ends in one or two letters and one or two digits: "50 g6", "64 mm js7".
bool ends_in_class(std::string_view text) {
  while (!text.empty() && text.back() == ' ')
    text.remove_suffix(1);
  const auto take = [&text](bool (*wanted)(char)) {
    std::size_t taken = 0;
    for (; !text.empty() && wanted(text.back()); ++taken)
      text.remove_suffix(1);
    return taken;
  };
  const auto digits = take(is_digit), letters = take(is_letter);
  return digits >= 1 && digits <= 2 && letters >= 1 && letters <= 2;
}

// Lengths of which at least one has a unit; it serves those that have none.
std::vector<Written> pieces_with_one_unit(std::span<const std::string> texts, const std::string& flag) {
  const Unit* unit = nullptr;
  for (const auto& text : texts) {
    try {
      unit = parse_written(text, Kind::length, {.field = flag}).unit;
      break;
    } catch (const BadInput&) {  // a bare number, or a mistake that comes up again below
      continue;
    }
  }
  std::vector<Written> pieces;
  for (const auto& text : texts)
    pieces.push_back(parse_written(text, Kind::length, {.field = flag, .default_unit = unit}));
  return pieces;
}

FitSize from_limits(const std::string& text, const Unit* unit, SizeLimits limits, Length nominal,
                    const std::string& flag) {
  if (!(limits.smallest.value() > 0)) throw bad_argument(flag, text, "a diameter above zero");
  if (!(limits.largest.value() <= length_max_m))
    throw bad_argument(flag, text, "a diameter of at most 1000 m");
  if (limits.smallest > limits.largest)
    throw bad_argument(flag, text, "the larger limit or the upper deviation where it belongs");
  FitSize size;
  size.text = text;
  size.unit = unit;
  size.limits = limits;
  size.nominal = nominal;
  return size;
}

FitSize from_class(const std::string& text, FitSide side, const std::string& flag) {
  const auto designation = parse_fit(text, flag);
  const auto& wanted = side == FitSide::bore ? designation.hole : designation.shaft;
  const auto& other = side == FitSide::bore ? designation.shaft : designation.hole;
  if (!wanted || other)
    throw bad_argument(flag, text,
                       side == FitSide::bore ? "one bore class, in capitals: 50 H7"
                                             : "one shaft class, in small letters: 50 g6");
  const auto deviations = limit_deviations(designation.basic, *wanted);
  auto size = from_limits(
      text, &unit_with_symbol("mm", Kind::length),
      {.smallest = designation.basic + deviations.lower, .largest = designation.basic + deviations.upper},
      designation.basic, flag);
  size.class_known = deviations.how;
  size.class_source = deviations.source;
  return size;
}

FitSize from_range(const std::string& text, std::size_t dots, const std::string& flag) {
  const std::array<std::string, 2> texts{text.substr(0, dots), text.substr(dots + 2)};
  const auto pieces = pieces_with_one_unit(texts, flag);
  const Length low = metres(pieces[0].si), high = metres(pieces[1].si);
  return from_limits(text, pieces[1].unit, {.smallest = low, .largest = high}, (low + high) / 2.0, flag);
}

FitSize from_plus_minus(const std::string& text, std::size_t sign, const std::string& flag) {
  const std::array<std::string, 2> texts{text.substr(0, sign), text.substr(sign + plus_minus.size())};
  const auto pieces = pieces_with_one_unit(texts, flag);
  const Length size = metres(pieces[0].si), half = metres(pieces[1].si);
  return from_limits(text, pieces[0].unit, {.smallest = size - half, .largest = size + half}, size, flag);
}

// Where the slash between two signed deviations stands: the next mark after it is a sign, or "0".
std::size_t slash_of_deviations(std::string_view text) {
  for (std::size_t i = text.size(); i-- > 0;) {
    if (text[i] != '/') continue;
    const auto next = text.find_first_not_of(' ', i + 1);
    if (next == std::string_view::npos) continue;
    const auto after = text.substr(next);
    if (after.front() == '+' || after.front() == '-' || after.starts_with(typographic_minus)) return i;
    if (after.front() == '0' && text.substr(0, i).find('+') != std::string_view::npos) return i;
  }
  return std::string_view::npos;
}

std::size_t last_sign(std::string_view text) {
  const auto ascii = text.find_last_of("+-");
  const auto typographic = text.rfind(typographic_minus);
  if (ascii == std::string_view::npos) return typographic;
  if (typographic == std::string_view::npos) return ascii;
  return ascii > typographic ? ascii : typographic;
}

FitSize from_deviations(const std::string& text, std::size_t slash, const std::string& flag) {
  const auto sign = last_sign(std::string_view(text).substr(0, slash));
  if (sign == std::string::npos || sign == 0)
    throw bad_argument(flag, text, "a size and two signed deviations: 1.2495 in +0/-0.0005 in");
  const std::array<std::string, 3> texts{text.substr(0, sign), text.substr(sign, slash - sign),
                                         text.substr(slash + 1)};
  const auto pieces = pieces_with_one_unit(texts, flag);
  const Length size = metres(pieces[0].si);
  return from_limits(text, pieces[0].unit,
                     {.smallest = size + metres(pieces[2].si), .largest = size + metres(pieces[1].si)}, size,
                     flag);
}

FitSize from_measured(const std::string& text, const std::string& uncertainty, const std::string& flag) {
  const auto size = parse_written(text, Kind::length, {.field = flag});
  auto result = from_limits(text, size.unit, {.smallest = metres(size.si), .largest = metres(size.si)},
                            metres(size.si), flag);
  Length u = metres(0);
  if (!uncertainty.empty()) {
    const ParseContext context{.field = flag + "-u", .default_unit = size.unit};
    u = metres(parse_written(uncertainty, Kind::length, context).si);
    if (!(u.value() >= 0 && u < metres(size.si)))
      throw bad_argument(flag + "-u", uncertainty, "a standard uncertainty from 0 to less than the size");
  }
  result.measured = MeasuredDiameter{.value = metres(size.si), .standard_uncertainty = u};
  return result;
}

}  // namespace

FitSize parse_fit_size(const std::string& text, const std::string& uncertainty, FitSide side,
                       const std::string& flag) {
  const auto range = text.find("..");
  const auto both = text.find(plus_minus);
  const auto slash = slash_of_deviations(text);
  const bool by_limits =
      range != std::string::npos || both != std::string::npos || slash != std::string::npos;
  if (!by_limits && !ends_in_class(text)) return from_measured(text, uncertainty, flag);
  if (!uncertainty.empty())
    throw bad_argument(flag + "-u", uncertainty, "nothing, unless " + flag + " is a measured size");
  if (range != std::string::npos) return from_range(text, range, flag);
  if (both != std::string::npos) return from_plus_minus(text, both, flag);
  return slash != std::string::npos ? from_deviations(text, slash, flag) : from_class(text, side, flag);
}

}  // namespace pumpwright
