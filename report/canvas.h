// A small drawing surface: the same drawing code makes a PDF page, an SVG picture and a PNG picture.
//
// All lengths are points (1/72 in), x to the right and y downwards from the upper left corner. Text is laid
// out by Pango in the family "Inter" (sans-serif where it is not installed) with tabular figures, stays
// searchable in a PDF, and breaks inside a word only when the word alone is wider than its column. Text that
// is not valid UTF-8 is shown with replacement characters. Nothing here knows what it draws.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace pumpwright::report {

struct Point {
  double x = 0;
  double y = 0;
};

struct PageSize {
  double width = 0;
  double height = 0;
};

struct Box {
  double x = 0;
  double y = 0;
  double width = 0;
  double height = 0;

  double right() const { return x + width; }
  double bottom() const { return y + height; }
  Point centre() const { return {x + width / 2, y + height / 2}; }
  Box inset(double by) const { return {x + by, y + by, width - 2 * by, height - 2 * by}; }
  bool overlaps(const Box& other) const {
    return x < other.right() && other.x < right() && y < other.bottom() && other.y < bottom();
  }
};

struct Colour {
  double red = 0;
  double green = 0;
  double blue = 0;
};

struct Pen {
  Colour colour;
  double width = 0.6;
  std::vector<double> dash;  // lengths of stroke and gap in turn; empty: a full line
};

enum class Weight { regular, medium, bold };
enum class Align { left, centre, right };

struct Type {
  double size = 9;
  Weight weight = Weight::regular;
  Colour colour;
  Align align = Align::left;
};

// Parallel lines across a shape, as on a section. `angle_deg` from the horizontal, counter-clockwise.
struct Hatch {
  double angle_deg = 45;
  double spacing = 3;
  bool crossed = false;
  Pen pen;
};

// What a shape is filled and outlined with; either may be left out.
struct Paint {
  std::optional<Colour> fill;
  std::optional<Pen> pen;
};

class Canvas {
 public:
  struct Target;  // what is drawn on; only canvas.cpp knows
  explicit Canvas(Target& target) : target_(target) {}

  void line(Point from, Point to, const Pen& pen);
  void open_path(std::span<const Point> points, const Pen& pen);
  void polygon(std::span<const Point> points, const Paint& paint);
  void rectangle(const Box& box, const Paint& paint, double corner_radius = 0);
  void circle(Point centre, double radius, const Paint& paint);
  // Angles clockwise from straight up, in degrees; `inner` may be 0.
  void ring_sector(Point centre, double inner, double outer, double from_deg, double to_deg,
                   const Paint& paint);
  void hatch(std::span<const Point> outline, const Hatch& hatch);

  // Height of `text` set in lines of at most `width`; width 0: one line.
  PageSize measure(const std::string& text, const Type& type, double width = 0);
  // Sets the text with its upper left corner at `at` (with width 0 and another alignment: its upper middle or
  // right corner); returns the space it took.
  PageSize text(Point at, const std::string& text, const Type& type, double width = 0);

  // Everything drawn inside `body` is cut off at the border of the box or the shape.
  void clipped(const Box& box, const std::function<void()>& body);
  void clipped(std::span<const Point> outline, const std::function<void()>& body);

 private:
  Target& target_;
};

using Draw = std::function<void(Canvas&)>;

std::string render_svg(PageSize size, const Draw& draw);
// `pixels_per_point` 0.1 to 20; the picture is white where nothing is drawn.
std::string render_png(PageSize size, double pixels_per_point, const Draw& draw);

// What a reader's program shows about the document. `date` is an ISO 8601 moment in UTC.
struct DocumentFacts {
  std::string title;
  std::string author;
  std::string subject;
  std::string keywords;
  std::string date;
};

// A PDF in the making. Depends on what is drawn only: never on the clock.
class PdfDocument {
 public:
  PdfDocument(PageSize size, const DocumentFacts& facts);
  ~PdfDocument();
  PdfDocument(const PdfDocument&) = delete;
  PdfDocument& operator=(const PdfDocument&) = delete;

  Canvas& canvas() { return *canvas_; }
  void next_page();
  // An entry of the reader's table of contents that leads to `y` on the present page (numbered from 1).
  void outline(const std::string& title, int page, double y);
  std::string finish();  // the bytes; nothing can be drawn afterwards

 private:
  std::string bytes_;
  std::unique_ptr<Canvas::Target> target_;
  std::unique_ptr<Canvas> canvas_;
};

}  // namespace pumpwright::report
