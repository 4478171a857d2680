#include "report/canvas.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <stdexcept>

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <pango/pangocairo.h>

#include "engine/quantity/quantity.h"

namespace pumpwright::report {
namespace {

struct FreeSurface {
  void operator()(cairo_surface_t* p) const { cairo_surface_destroy(p); }
};
struct FreeContext {
  void operator()(cairo_t* p) const { cairo_destroy(p); }
};
struct FreeObject {
  void operator()(void* p) const { g_object_unref(p); }
};
struct FreeFont {
  void operator()(PangoFontDescription* p) const { pango_font_description_free(p); }
};
struct FreeBytes {
  void operator()(char* p) const { g_free(p); }
};
using Surface = std::unique_ptr<cairo_surface_t, FreeSurface>;
using Context = std::unique_ptr<cairo_t, FreeContext>;
using Layout = std::unique_ptr<PangoLayout, FreeObject>;

cairo_status_t append(void* sink, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(sink)->append(data, data + length);
  return CAIRO_STATUS_SUCCESS;
}

void require_success(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS)
    throw std::runtime_error(std::string("drawing failed: ") + cairo_status_to_string(status));
}

void use(cairo_t* cr, const Colour& colour) {
  cairo_set_source_rgb(cr, colour.red, colour.green, colour.blue);
}

void stroke(cairo_t* cr, const Pen& pen) {
  use(cr, pen.colour);
  cairo_set_line_width(cr, pen.width);
  cairo_set_dash(cr, pen.dash.data(), static_cast<int>(pen.dash.size()), 0);
  cairo_stroke(cr);
}

void apply(cairo_t* cr, const Paint& paint) {
  if (paint.fill) {
    use(cr, *paint.fill);
    if (paint.pen)
      cairo_fill_preserve(cr);
    else
      cairo_fill(cr);
  }
  if (paint.pen) stroke(cr, *paint.pen);
  cairo_new_path(cr);
}

void trace(cairo_t* cr, std::span<const Point> points) {
  cairo_new_path(cr);
  for (const Point& p : points)
    cairo_line_to(cr, p.x, p.y);
}

PangoWeight pango_weight(Weight weight) {
  switch (weight) {
    case Weight::medium:
      return PANGO_WEIGHT_MEDIUM;
    case Weight::bold:
      return PANGO_WEIGHT_SEMIBOLD;
    case Weight::regular:
      break;
  }
  return PANGO_WEIGHT_NORMAL;
}

// The same metrics on every kind of surface, so that a line breaks at the same word in PDF, SVG and PNG.
void fix_font_options(cairo_t* cr) {
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options(cr, options);
  cairo_font_options_destroy(options);
}

Context context_on(cairo_surface_t* surface) {
  Context cr(cairo_create(surface));
  require_success(cairo_status(cr.get()));
  fix_font_options(cr.get());
  cairo_set_line_join(cr.get(), CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap(cr.get(), CAIRO_LINE_CAP_BUTT);
  return cr;
}

}  // namespace

struct Canvas::Target {
  Surface surface;
  Context cr;

  Layout layout(const std::string& text, const Type& type, double width) const {
    Layout made(pango_cairo_create_layout(cr.get()));
    PangoContext* context = pango_layout_get_context(made.get());
    pango_cairo_context_set_resolution(context, 72);
    pango_context_set_round_glyph_positions(context, FALSE);
    const std::unique_ptr<PangoFontDescription, FreeFont> font(
        pango_font_description_from_string("Inter,sans-serif"));
    pango_font_description_set_weight(font.get(), pango_weight(type.weight));
    pango_font_description_set_absolute_size(font.get(), type.size * PANGO_SCALE);
    pango_layout_set_font_description(made.get(), font.get());
    // Tabular figures; no contextual alternates, which would turn a typed "->" or "x" into another sign.
    PangoAttrList* attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_font_features_new("tnum=1, calt=0"));
    pango_layout_set_attributes(made.get(), attributes);
    pango_attr_list_unref(attributes);
    const std::unique_ptr<char, FreeBytes> valid(
        g_utf8_make_valid(text.data(), static_cast<gssize>(text.size())));
    pango_layout_set_text(made.get(), valid.get(), -1);
    if (width > 0) {
      pango_layout_set_width(made.get(), static_cast<int>(std::ceil(width * PANGO_SCALE)));
      pango_layout_set_wrap(made.get(), PANGO_WRAP_WORD_CHAR);
      pango_layout_set_alignment(made.get(), type.align == Align::left     ? PANGO_ALIGN_LEFT
                                             : type.align == Align::centre ? PANGO_ALIGN_CENTER
                                                                           : PANGO_ALIGN_RIGHT);
    }
    return made;
  }
};

namespace {

PageSize size_of(PangoLayout* layout) {
  PangoRectangle logical;
  pango_layout_get_extents(layout, nullptr, &logical);
  return {double(logical.width) / PANGO_SCALE, double(logical.height) / PANGO_SCALE};
}

}  // namespace

void Canvas::line(Point from, Point to, const Pen& pen) {
  const Point ends[] = {from, to};
  open_path(ends, pen);
}

void Canvas::open_path(std::span<const Point> points, const Pen& pen) {
  trace(target_.cr.get(), points);
  stroke(target_.cr.get(), pen);
}

void Canvas::polygon(std::span<const Point> points, const Paint& paint) {
  trace(target_.cr.get(), points);
  cairo_close_path(target_.cr.get());
  apply(target_.cr.get(), paint);
}

void Canvas::rectangle(const Box& box, const Paint& paint, double corner_radius) {
  cairo_t* cr = target_.cr.get();
  cairo_new_path(cr);
  const double r = std::min({corner_radius, box.width / 2, box.height / 2});
  if (r <= 0) {
    cairo_rectangle(cr, box.x, box.y, box.width, box.height);
  } else {
    cairo_arc(cr, box.right() - r, box.y + r, r, -pi / 2, 0);
    cairo_arc(cr, box.right() - r, box.bottom() - r, r, 0, pi / 2);
    cairo_arc(cr, box.x + r, box.bottom() - r, r, pi / 2, pi);
    cairo_arc(cr, box.x + r, box.y + r, r, pi, 3 * pi / 2);
    cairo_close_path(cr);
  }
  apply(cr, paint);
}

void Canvas::circle(Point centre, double radius, const Paint& paint) {
  cairo_new_path(target_.cr.get());
  cairo_arc(target_.cr.get(), centre.x, centre.y, radius, 0, 2 * pi);
  cairo_close_path(target_.cr.get());
  apply(target_.cr.get(), paint);
}

void Canvas::ring_sector(Point centre, double inner, double outer, double from_deg, double to_deg,
                         const Paint& paint) {
  cairo_t* cr = target_.cr.get();
  const double from = (from_deg - 90) * pi / 180;
  const double to = (to_deg - 90) * pi / 180;
  cairo_new_path(cr);
  cairo_arc(cr, centre.x, centre.y, outer, from, to);
  if (inner > 0)
    cairo_arc_negative(cr, centre.x, centre.y, inner, to, from);
  else
    cairo_line_to(cr, centre.x, centre.y);
  cairo_close_path(cr);
  apply(cr, paint);
}

void Canvas::hatch(std::span<const Point> outline, const Hatch& hatch) {
  if (outline.size() < 3 || hatch.spacing <= 0) return;
  Point low = outline[0], high = outline[0];
  for (const Point& p : outline) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  const double reach = std::hypot(high.x - low.x, high.y - low.y) / 2 + hatch.spacing;
  const int lines = static_cast<int>(std::min(2 * reach / hatch.spacing, 2000.0));
  const auto family = [&](double angle_deg) {
    const Point along{std::cos(angle_deg * pi / 180), -std::sin(angle_deg * pi / 180)};
    const Point across{-along.y, along.x};
    // Lines are counted from the page's origin, so that pieces of one part meet without a jump.
    const Point middle{(low.x + high.x) / 2, (low.y + high.y) / 2};
    const double offset = std::fmod(middle.x * across.x + middle.y * across.y, hatch.spacing);
    for (int i = -lines / 2 - 1; i <= lines / 2 + 1; ++i) {
      const double d = i * hatch.spacing - offset;
      const Point foot{middle.x + across.x * d, middle.y + across.y * d};
      line({foot.x - along.x * reach, foot.y - along.y * reach},
           {foot.x + along.x * reach, foot.y + along.y * reach}, hatch.pen);
    }
  };
  clipped(outline, [&] {
    family(hatch.angle_deg);
    if (hatch.crossed) family(hatch.angle_deg + 90);
  });
}

PageSize Canvas::measure(const std::string& text, const Type& type, double width) {
  return size_of(target_.layout(text, type, width).get());
}

PageSize Canvas::text(Point at, const std::string& text, const Type& type, double width) {
  const Layout layout = target_.layout(text, type, width);
  const PageSize size = size_of(layout.get());
  double x = at.x;
  if (width <= 0 && type.align == Align::centre) x -= size.width / 2;
  if (width <= 0 && type.align == Align::right) x -= size.width;
  use(target_.cr.get(), type.colour);
  cairo_move_to(target_.cr.get(), x, at.y);
  pango_cairo_show_layout(target_.cr.get(), layout.get());
  cairo_new_path(target_.cr.get());
  return size;
}

void Canvas::clipped(const Box& box, const std::function<void()>& body) {
  const Point corners[] = {
      {box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}};
  clipped(corners, body);
}

void Canvas::clipped(std::span<const Point> outline, const std::function<void()>& body) {
  cairo_t* cr = target_.cr.get();
  cairo_save(cr);
  trace(cr, outline);
  cairo_close_path(cr);
  cairo_clip(cr);
  body();
  cairo_restore(cr);
}

std::string render_svg(PageSize size, const Draw& draw) {
  std::string bytes;
  {
    Canvas::Target target;
    target.surface.reset(cairo_svg_surface_create_for_stream(append, &bytes, size.width, size.height));
    target.cr = context_on(target.surface.get());
    Canvas canvas(target);
    draw(canvas);
    target.cr.reset();
    cairo_surface_finish(target.surface.get());
    require_success(cairo_surface_status(target.surface.get()));
  }
  // The surface is named after a counter of the process; the same drawing shall give the same bytes.
  const std::string counted = "id=\"surface";
  if (const auto at = bytes.find(counted); at != std::string::npos) {
    const auto end = bytes.find('"', at + counted.size());
    bytes.replace(at, end + 1 - at, "id=\"drawing\"");
  }
  return bytes;
}

std::string render_png(PageSize size, double pixels_per_point, const Draw& draw) {
  const double scale = std::clamp(pixels_per_point, 0.1, 20.0);
  std::string bytes;
  Canvas::Target target;
  target.surface.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                                  static_cast<int>(std::ceil(size.width * scale)),
                                                  static_cast<int>(std::ceil(size.height * scale))));
  require_success(cairo_surface_status(target.surface.get()));
  target.cr = context_on(target.surface.get());
  cairo_set_source_rgb(target.cr.get(), 1, 1, 1);
  cairo_paint(target.cr.get());
  cairo_scale(target.cr.get(), scale, scale);
  Canvas canvas(target);
  draw(canvas);
  require_success(cairo_status(target.cr.get()));
  require_success(cairo_surface_write_to_png_stream(target.surface.get(), append, &bytes));
  return bytes;
}

PdfDocument::PdfDocument(PageSize size, const DocumentFacts& facts)
    : target_(std::make_unique<Canvas::Target>()) {
  target_->surface.reset(cairo_pdf_surface_create_for_stream(append, &bytes_, size.width, size.height));
  cairo_surface_t* surface = target_->surface.get();
  require_success(cairo_surface_status(surface));
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, facts.title.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_AUTHOR, facts.author.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, facts.subject.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_KEYWORDS, facts.keywords.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "pumpwright");
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, facts.date.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_MOD_DATE, facts.date.c_str());
  target_->cr = context_on(surface);
  canvas_ = std::make_unique<Canvas>(*target_);
}

PdfDocument::~PdfDocument() {
  if (target_) cairo_surface_finish(target_->surface.get());
}

void PdfDocument::next_page() {
  cairo_show_page(target_->cr.get());
}

void PdfDocument::outline(const std::string& title, int page, double y) {
  // The position is a link to a place on the page, in the coordinates drawn with.
  const std::string where =
      "page=" + std::to_string(page) + " pos=[0 " + std::to_string(static_cast<long>(std::lround(y))) + "]";
  cairo_pdf_surface_add_outline(target_->surface.get(), CAIRO_PDF_OUTLINE_ROOT, title.c_str(), where.c_str(),
                                CAIRO_PDF_OUTLINE_FLAG_OPEN);
}

std::string PdfDocument::finish() {
  assert(target_);
  cairo_show_page(target_->cr.get());
  require_success(cairo_status(target_->cr.get()));
  target_->cr.reset();
  cairo_surface_finish(target_->surface.get());
  require_success(cairo_surface_status(target_->surface.get()));
  target_.reset();
  canvas_.reset();
  return std::move(bytes_);
}

}  // namespace pumpwright::report

#if defined(__SANITIZE_ADDRESS__)  // g++
#define PUMPWRIGHT_LEAKS_ARE_CHECKED
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)  // clang++
#define PUMPWRIGHT_LEAKS_ARE_CHECKED
#endif
#endif

#if defined(PUMPWRIGHT_LEAKS_ARE_CHECKED)
// Fontconfig keeps its configuration until the process ends and never gives it back; the leak checker of a
// sanitized build would report that as ours.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
  return "leak:libfontconfig\n";
}
#endif
