#include "engine/metrology/instrument.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

void require(bool good, const char* field, Length read, const char* expected) {
  if (good) return;
  throw BadInput({.field = fmt::format("instrument {}", field),
                  .place = "",
                  .value = fmt::format("{} m", read.value()),
                  .expected = expected});
}

void require_not_negative(const std::optional<Length>& figure, const char* field) {
  if (!figure) return;
  require(std::isfinite(figure->value()) && figure->value() >= 0, field, *figure, "a length of zero or more");
}

void validate(const Instrument& i) {
  require(std::isfinite(i.graduation.value()) && i.graduation.value() > 0, "graduation", i.graduation,
          "a length above zero, such as 0.01 mm or 0.0005 in");
  require_not_negative(i.reading_half_width, "reading half-width");
  require_not_negative(i.mpe, "permissible error");
  require_not_negative(i.repeatability, "repeatability");
  if (i.repeatability_dof && !(*i.repeatability_dof > 0)) {
    throw BadInput({.field = "instrument repeatability, degrees of freedom",
                    .place = "",
                    .value = fmt::format("{}", *i.repeatability_dof),
                    .expected = "a number above zero"});
  }
}

Length half_width(const Instrument& i) {
  return i.reading_half_width.value_or(0.5 * i.graduation);
}

}  // namespace

UncertaintyBudget reading_budget(const Instrument& i) {
  validate(i);
  UncertaintyBudget budget;
  budget.contributions.push_back(
      {.name = "graduation", .u = rectangular(half_width(i)), .distribution = AssumedShape::rectangular});
  if (i.mpe) {
    budget.contributions.push_back({.name = "largest permissible error",
                                    .u = rectangular(*i.mpe),
                                    .distribution = AssumedShape::rectangular});
  }
  if (i.repeatability) {
    Contribution c{.name = "repeatability", .u = *i.repeatability};
    if (i.repeatability_dof) {
      c.dof = *i.repeatability_dof;
      c.distribution = AssumedShape::student;
    }
    budget.contributions.push_back(c);
  }
  return budget;
}

UncertaintyBudget difference_budget(const Instrument& i) {
  UncertaintyBudget budget = reading_budget(i);
  for (Contribution& c : budget.contributions) {
    c.name += ", two readings";
    c.u *= std::sqrt(2.0);
  }
  return budget;
}

Length reading_scatter(const Instrument& i) {
  validate(i);
  return metres(std::hypot(rectangular(half_width(i)).value(), i.repeatability.value_or(metres(0)).value()));
}

}  // namespace pumpwright
