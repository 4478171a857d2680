// Pages that fill from top to bottom: margins, running head and foot, page numbers.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "report/canvas.h"

namespace pumpwright::report {

// What stands on every page.
struct PageFurniture {
  std::string head_left, head_right;  // from the second page on
  std::string foot_left, foot_middle;
  std::string page_of;  // "page {} of {}"
};

class PageFlow {
 public:
  // `pages_in_all` is known from a first run of the same composition (0 in that run).
  PageFlow(PdfDocument& document, PageSize size, PageFurniture furniture, int pages_in_all);

  Canvas& canvas() { return document_.canvas(); }
  double left() const { return margin_side; }
  double width() const { return size_.width - 2 * margin_side; }
  double y() const { return y_; }
  double room() const { return size_.height - margin_foot - y_; }
  double page_room() const { return size_.height - margin_foot - margin_top; }
  int page() const { return page_; }

  void advance(double by) { y_ += by; }
  // Goes on to a new page when less than `height` is left here; true when it did. A height no page has counts
  // as a whole page.
  bool keep_together(double height);
  void next_page();

  // A heading kept on one page with at least `with` points of what follows; goes into the outline.
  void heading(const std::string& title, double with);
  // One paragraph, kept on one page.
  void paragraph(const std::string& text, const Type& type, double indent = 0);
  // Draws the last page's furniture.
  void finish();

  static constexpr double margin_side = 42;
  static constexpr double margin_top = 54;
  static constexpr double margin_foot = 48;

 private:
  void furnish();

  PdfDocument& document_;
  PageSize size_;
  PageFurniture furniture_;
  int pages_in_all_;
  int page_ = 1;
  double y_ = margin_top;
};

}  // namespace pumpwright::report
