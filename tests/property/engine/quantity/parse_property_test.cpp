// Whatever bytes come in, a value or BadInput comes out.
#include <array>
#include <cmath>
#include <string>
#include <string_view>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/quantity/parse.h"
#include "tests/support/hold.h"

namespace pumpwright {
namespace {

using testing::hold;

constexpr std::array pieces{"7",    ".",    ",",      "-",    "+",     "e",   "E",   "1/2", "/",    " ",
                            "0",    "999",  "thou",   "in",   "\"",    "'",   "mm",  "µm",  "μ",    "°",
                            "F",    "degC", "psi",    "psig", "ft-lb", "N·m", "½",   "³",   "⁻¹",   "\u2212",
                            "\xFF", "\xC2", "\u00A0", "nan",  "inf",   "0x",  "(g)", "^",   "1250", "ft",
                            "bar",  "3550", "rpm",    "%",    "1'3",   "\t",  "·",   "%n"};

std::string from_pieces() {
  std::string text;
  const int count = *rc::gen::inRange(0, 9);
  for (int i = 0; i < count; ++i)
    text += pieces[*rc::gen::inRange<std::size_t>(0, pieces.size())];
  return text;
}

constexpr std::array good{"7 thou",     ".007\"",  "1 3/8 in", "1' 3 1/2\"", "0,180 mm",   "180 µm",
                          "180 °F",     "12 psig", "4 tenths", "45 ft-lb",   "3550 rpm",   "250 gpm",
                          "7.00e-3 in", "60 N·m",  "30 %",     "-2",         "11.5 µm/m/K"};

std::string mutated() {
  std::string text = good[*rc::gen::inRange<std::size_t>(0, good.size())];
  const int changes = *rc::gen::inRange(1, 4);
  for (int i = 0; i < changes; ++i) {
    const auto at = *rc::gen::inRange<std::size_t>(0, text.size() + 1);
    const char byte = static_cast<char>(*rc::gen::inRange(0, 256));
    switch (*rc::gen::inRange(0, 3)) {
      case 0:
        text.insert(at, 1, byte);
        break;
      case 1:
        if (at < text.size()) text.erase(at, 1);
        break;
      default:
        if (at < text.size()) text[at] = byte;
    }
  }
  return text;
}

// A value that makes sense, or BadInput with one printable line; anything else fails the property.
void reads_or_refuses(const std::string& text) {
  const Kind kind = all_kinds()[*rc::gen::inRange<std::size_t>(0, all_kinds().size())].kind;
  const Unit* default_unit = *rc::gen::arbitrary<bool>() ? &si_unit(kind) : nullptr;
  try {
    const Written written = parse_written(text, kind, {.field = "f", .default_unit = default_unit});
    RC_ASSERT(std::isfinite(written.si) && std::isfinite(written.number));
    RC_ASSERT(written.unit != nullptr && written.unit->kind == kind);
    RC_ASSERT(written.decimals >= 0 && written.last_place_si >= 0);
    RC_ASSERT(text.find(written.text) != std::string::npos);
    RC_ASSERT(text.find_first_of("0123456789") != std::string::npos ||
              text.find('\xC2') != std::string::npos);
    const double again = to_si(written.number, *written.unit);
    RC_ASSERT(std::fabs(again - written.si) <=
              4e-16 * (std::fabs(again) + std::fabs(to_si(0, *written.unit))) + 1e-320);
  } catch (const BadInput& error) {
    const std::string_view line = error.what();
    RC_ASSERT(line.starts_with("f: read \"") || line.starts_with("f; valid: "));
    RC_ASSERT(line.find('\n') == std::string_view::npos);
  }
}

TEST(ParseAnything, ReadsOrRefusesRandomBytes) {
  hold("bytes", [] { reads_or_refuses(*rc::gen::container<std::string>(rc::gen::arbitrary<char>())); });
}

TEST(ParseAnything, ReadsOrRefusesPiecesInAnyOrder) {
  hold("pieces", [] { reads_or_refuses(from_pieces()); });
}

TEST(ParseAnything, ReadsOrRefusesDamagedGoodTexts) {
  hold("mutated", [] { reads_or_refuses(mutated()); });
}

TEST(ParseAnything, ReadsOrRefusesAUnitAlone) {
  hold("unit", [] {
    const std::string text = from_pieces();
    try {
      RC_ASSERT(parse_unit(text, Kind::length, "f").kind == Kind::length);
    } catch (const BadInput& error) {
      RC_ASSERT(!std::string_view(error.what()).empty());
    }
  });
}

// A comma among digits is read one way or refused; it never means 1000.
TEST(ParseAnything, NeverTakesACommaForAThousandsSeparator) {
  hold("comma", [] {
    const int whole = *rc::gen::inRange(0, 100'000);
    const std::string part = *rc::gen::container<std::string>(rc::gen::inRange('0', ':'));
    try {
      const Written written =
          parse_written(std::to_string(whole) + "," + part + " mm", Kind::length, {.field = "f"});
      RC_ASSERT(written.number >= whole && written.number <= whole + 1);
    } catch (const BadInput&) {
      RC_ASSERT(part.empty() || part.size() > 50U || (part.size() == 3U && whole != 0 && whole < 1000));
    }
  });
}

}  // namespace
}  // namespace pumpwright
