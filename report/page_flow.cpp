#include "report/page_flow.h"

#include <algorithm>

#include <fmt/format.h>

#include "report/palette.h"

namespace pumpwright::report {
namespace {

Type furniture_type(Align align) {
  return {7.4, Weight::regular, soft_ink, align};
}

}  // namespace

PageFlow::PageFlow(PdfDocument& document, PageSize size, PageFurniture furniture, int pages_in_all)
    : document_(document), size_(size), furniture_(std::move(furniture)), pages_in_all_(pages_in_all) {}

bool PageFlow::keep_together(double height) {
  if (std::min(height, page_room()) <= room() + 1e-6) return false;
  next_page();
  return true;
}

void PageFlow::next_page() {
  furnish();
  document_.next_page();
  ++page_;
  y_ = margin_top;
}

void PageFlow::furnish() {
  const double right = left() + width();
  if (page_ > 1) {
    const double y = 28;
    canvas().text({left(), y}, furniture_.head_left, furniture_type(Align::left));
    canvas().text({right, y}, furniture_.head_right, furniture_type(Align::right));
    canvas().line({left(), y + 13}, {right, y + 13}, {hair, 0.6, {}});
  }
  const double y = size_.height - 31;
  canvas().line({left(), y - 4}, {right, y - 4}, {hair, 0.6, {}});
  canvas().text({left(), y}, furniture_.foot_left, furniture_type(Align::left));
  Type loud = furniture_type(Align::centre);
  loud.weight = Weight::medium;
  loud.colour = ink;
  canvas().text({left() + width() / 2, y}, furniture_.foot_middle, loud);
  canvas().text({right, y}, fmt::format(fmt::runtime(furniture_.page_of), page_, pages_in_all_),
                furniture_type(Align::right));
}

void PageFlow::heading(const std::string& title, double with) {
  const Type type{12.5, Weight::bold, ink, Align::left};
  const double height = canvas().measure(title, type, width()).height;
  const bool top = keep_together(height + 24 + with) || y_ <= margin_top + 1;
  if (!top) y_ += 16;
  document_.outline(title, page_, y_);
  y_ += canvas().text({left(), y_}, title, type, width()).height + 7;
}

void PageFlow::paragraph(const std::string& text, const Type& type, double indent) {
  const double height = canvas().measure(text, type, width() - indent).height;
  keep_together(height);
  canvas().text({left() + indent, y_}, text, type, width() - indent);
  y_ += height;
}

void PageFlow::finish() {
  furnish();
}

}  // namespace pumpwright::report
