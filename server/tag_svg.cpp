#include "server/tag_svg.h"

#include <string_view>

#include <fmt/format.h>

#include "report/qr_tag.h"

namespace pumpwright::server {
namespace {

constexpr double height_mm = 40;
constexpr double width_mm = 90;
constexpr std::size_t letters_max = 28;  // what fits beside the code

std::string escaped(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    switch (c) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      default:
        safe += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return safe;
}

// At most letters_max characters of UTF-8, never cut inside one.
std::string shortened(const std::string& text) {
  std::size_t letters = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool begins = (static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U;
    if (begins && ++letters > letters_max) return text.substr(0, i) + "…";
  }
  return text;
}

std::string line(double y_mm, double size_mm, const std::string& text) {
  return fmt::format(R"(<text x="40" y="{}" font-size="{}">{}</text>)", y_mm, size_mm,
                     escaped(shortened(text)));
}

std::string code(const std::string& text) {
  const auto modules = report::qr_modules(text);
  const double module_mm =
      (height_mm - 4) / static_cast<double>(modules.size() + 8);  // four quiet ones on each side
  std::string path;
  for (std::size_t row = 0; row < modules.size(); ++row)
    for (std::size_t column = 0; column < modules.size(); ++column)
      if (modules[row][column]) path += fmt::format("M{} {}h1v1h-1z", column + 4, row + 4);
  return fmt::format(R"svg(<g transform="translate(2 2) scale({:.5f})"><path d="{}" fill="#000"/></g>)svg",
                     module_mm, path);
}

}  // namespace

std::string tag_svg(const job::JobHeader& header, const std::string& record_hash) {
  std::string svg = fmt::format(
      R"(<svg xmlns="http://www.w3.org/2000/svg" width="{0}mm" height="{1}mm" viewBox="0 0 {0} {1}" font-family="sans-serif">)"
      R"(<title>{2}</title><rect width="{0}" height="{1}" fill="#fff"/>)",
      width_mm, height_mm, escaped(header.number));
  svg += code(report::qr_text(header.number, record_hash));
  svg += line(10, 6, header.number);
  svg += line(17, 3.2, header.customer);
  svg += line(22, 3.2, header.pump);
  svg += line(27, 3.2, header.serial);
  svg += line(35, 2.6, record_hash.substr(0, 16));
  if (header.invented) svg += line(31, 2.6, "demonstration · demostración");
  return svg + "</svg>\n";
}

}  // namespace pumpwright::server
