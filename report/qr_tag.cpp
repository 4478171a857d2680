#include "report/qr_tag.h"

#include <memory>

#include <qrencode.h>

#include "engine/quantity/bad_input.h"
#include "report/palette.h"

namespace pumpwright::report {
namespace {

struct FreeCode {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

constexpr double quiet_zone = 4;  // modules

}  // namespace

std::string qr_text(const std::string& job_number, const std::string& record_hash) {
  return job_number + " " + record_hash;
}

std::vector<std::vector<bool>> qr_modules(const std::string& text) {
  const std::unique_ptr<QRcode, FreeCode> code(QRcode_encodeData(
      static_cast<int>(text.size()), reinterpret_cast<const unsigned char*>(text.data()), 0, QR_ECLEVEL_M));
  if (code == nullptr)
    throw BadInput({.field = "job number and record hash",
                    .place = "",
                    .value = text.substr(0, 40),
                    .expected = "1 to 2331 bytes of text for the tag"});
  const auto width = static_cast<std::size_t>(code->width);
  std::vector<std::vector<bool>> modules(width, std::vector<bool>(width));
  for (std::size_t row = 0; row < width; ++row)
    for (std::size_t column = 0; column < width; ++column)
      modules[row][column] = (code->data[row * width + column] & 1U) != 0;
  return modules;
}

void draw_qr(Canvas& canvas, Point at, double size, const std::string& text) {
  const auto modules = qr_modules(text);
  const double module = size / (static_cast<double>(modules.size()) + 2 * quiet_zone);
  canvas.rectangle({at.x, at.y, size, size}, {white, std::nullopt});
  for (std::size_t row = 0; row < modules.size(); ++row) {
    // One rectangle for every run of dark modules: no hairlines between neighbours.
    for (std::size_t from = 0; from < modules.size(); ++from) {
      if (!modules[row][from]) continue;
      std::size_t to = from;
      while (to < modules.size() && modules[row][to])
        ++to;
      canvas.rectangle({at.x + (quiet_zone + static_cast<double>(from)) * module,
                        at.y + (quiet_zone + static_cast<double>(row)) * module,
                        static_cast<double>(to - from) * module, module * 1.02},
                       {rgb(0x000000), std::nullopt});
      from = to;
    }
  }
}

}  // namespace pumpwright::report
