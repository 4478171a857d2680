#include "cli/chain_file.h"

#include <fmt/format.h>

#include "job/json_quantity.h"
#include "job/json_reader.h"

namespace pumpwright {
namespace {

using job::JsonReader;

constexpr std::size_t links_max = 1000;

Written size_of_tolerance(const JsonReader& json) {
  auto written = written_length(json);
  if (written.si < 0) json.refuse("a length that is not negative (for signed deviations: lower and upper)");
  return written;
}

double number_between(const JsonReader& json, double least, double most) {
  const double number = json.number();
  if (!(number >= least && number <= most))
    json.refuse(fmt::format("a number from {:g} to {:g}", least, most));
  return number;
}

[[noreturn]] void refuse_tolerance(const JsonReader& link) {
  throw BadInput({.field = "tolerance",
                  .place = link.pointer(),
                  .value = "not exactly one way",
                  .expected = "one of: tolerance; plus and minus; lower and upper"});
}

// "tolerance" (±), or "plus" and "minus" (sizes), or "lower" and "upper" (signed deviations).
void read_tolerance(const JsonReader& json, Link& link) {
  const auto tolerance = json.optional("tolerance");
  const auto plus = json.optional("plus"), minus = json.optional("minus");
  const auto lower = json.optional("lower"), upper = json.optional("upper");
  const int ways = (tolerance ? 1 : 0) + (plus || minus ? 1 : 0) + (lower || upper ? 1 : 0);
  if (ways != 1 || plus.has_value() != minus.has_value() || lower.has_value() != upper.has_value())
    refuse_tolerance(json);
  if (tolerance) {
    const double half = size_of_tolerance(*tolerance).si;
    link.lower_deviation = metres(-half);
    link.upper_deviation = metres(half);
  } else if (plus) {
    link.lower_deviation = metres(-size_of_tolerance(*minus).si);
    link.upper_deviation = metres(size_of_tolerance(*plus).si);
  } else {
    link.lower_deviation = metres(written_length(*lower).si);
    link.upper_deviation = metres(written_length(*upper).si);
    if (link.lower_deviation > link.upper_deviation) lower->refuse("a deviation not above \"upper\"");
  }
}

// A key that belongs to some distributions only.
std::optional<JsonReader> key_of(const JsonReader& json, std::string_view key, bool belongs,
                                 std::string_view distributions) {
  auto found = json.optional(key);
  if (found && !belongs) found->refuse(fmt::format("this key with the distribution {} only", distributions));
  return found;
}

void read_distribution(const JsonReader& json, Link& link) {
  if (const auto word = json.optional("distribution"))
    link.spread = spread_from(word->word({"normal", "rectangular", "triangular", "trapezoidal", "arcsine",
                                          "curvilinear_trapezoid", "student_t"}),
                              "distribution");
  const Spread s = link.spread;
  const bool tailed = s == Spread::normal || s == Spread::student_t;
  if (const auto sigmas = key_of(json, "sigmas", tailed, "normal or student_t"))
    link.sigmas = number_between(*sigmas, 0.5, 12);
  if (const auto top = key_of(json, "top_ratio", s == Spread::trapezoidal, "trapezoidal"))
    link.top_ratio = number_between(*top, 0, 1);
  if (const auto inexact =
          key_of(json, "inexactness", s == Spread::curvilinear_trapezoid, "curvilinear_trapezoid"))
    link.inexactness = metres(size_of_tolerance(*inexact).si);
  if (const auto dof = key_of(json, "dof", s == Spread::student_t, "student_t"))
    link.dof = number_between(*dof, 1e-3, 1e6);
  else if (s == Spread::student_t)
    (void)json.required("dof");
}

Link read_link(const JsonReader& json) {
  json.allow_only({"name", "coefficient", "nominal", "tolerance", "plus", "minus", "lower", "upper",
                   "distribution", "sigmas", "top_ratio", "inexactness", "dof"});
  Link link;
  const auto name = json.required("name");
  link.name = name.text(80);
  if (link.name.empty()) name.refuse("a name");
  const auto coefficient = json.optional("coefficient");
  if (coefficient) link.coefficient = number_between(*coefficient, -1e6, 1e6);
  if (link.coefficient == 0) coefficient->refuse("a number other than 0");
  link.nominal = metres(written_length(json.required("nominal")).si);
  read_tolerance(json, link);
  read_distribution(json, link);
  return link;
}

void read_limits(const JsonReader& json, ChainFile& file) {
  json.allow_only({"lower", "upper", "inside"});
  if (const auto lower = json.optional("lower")) file.lower_limit = written_length(*lower);
  if (const auto upper = json.optional("upper")) file.upper_limit = written_length(*upper);
  if (!file.lower_limit && !file.upper_limit) json.refuse("a lower limit, an upper limit or both");
  if (file.lower_limit) file.chain.lower_limit = metres(file.lower_limit->si);
  if (file.upper_limit) file.chain.upper_limit = metres(file.upper_limit->si);
  if (file.lower_limit && file.upper_limit && file.lower_limit->si > file.upper_limit->si)
    json.required("lower").refuse("a length not above \"upper\"");
  if (const auto inside = json.optional("inside"))
    file.wanted_inside = number_between(*inside, 0.5, 0.999999);
}

void read_header(const JsonReader& json) {
  json.allow_only({"format", "version", "name", "note", "limits", "links"});
  (void)json.required("format").word({"pumpwright-chain"});
  (void)json.required("version").integer(chain_file_version, chain_file_version);
  if (const auto note = json.optional("note")) (void)note->text();
}

}  // namespace

ChainFile decode_chain_file(std::string_view bytes) {
  const auto json = JsonReader::parse(bytes);
  read_header(json);
  ChainFile file;
  file.name = json.required("name").text(200);
  if (const auto limits = json.optional("limits")) read_limits(*limits, file);
  const auto links = json.required("links");
  for (const auto& link : links.items(links_max)) {
    file.chain.links.push_back(read_link(link));
    file.nominals.push_back(written_length(link.required("nominal")));
  }
  if (file.chain.links.empty()) links.refuse("at least one link");
  require_valid(file.chain);
  return file;
}

}  // namespace pumpwright
