// The unit table is data: what holds for every row is checked for every row.
#include <cmath>
#include <map>
#include <set>

#include <gtest/gtest.h>

#include "engine/quantity/kind.h"
#include "engine/quantity/plain_text.h"
#include "engine/quantity/unit.h"

namespace pumpwright {
namespace {

TEST(Kind, IsFoundByItsName) {
  for (const KindInfo& kind : all_kinds())
    EXPECT_EQ(kind_named(kind.name), kind.kind);
  EXPECT_EQ(kind_named("Length"), std::nullopt);
  EXPECT_EQ(kind_named(""), std::nullopt);
}

TEST(UnitTable, HasOneSiUnitLeadingEachKind) {
  for (const KindInfo& kind : all_kinds()) {
    EXPECT_TRUE(si_unit(kind.kind).is_si()) << kind.name;
    EXPECT_EQ(to_si(12.5, si_unit(kind.kind)), 12.5);
  }
}

TEST(UnitTable, FindsEveryUnitByItsSymbolAndEverySpelling) {
  for (const Unit& unit : all_units()) {
    EXPECT_EQ(find_unit(unit.symbol, unit.kind), &unit) << unit.symbol;
    EXPECT_EQ(&unit_with_symbol(unit.symbol, unit.kind), &unit);
    std::string_view rest = unit.spellings;
    while (!rest.empty()) {
      const auto end = std::min(rest.find(' '), rest.size());
      EXPECT_EQ(find_unit(rest.substr(0, end), unit.kind), &unit) << rest.substr(0, end);
      EXPECT_EQ(plain_unit_text(rest.substr(0, end)), rest.substr(0, end)) << "not in plain spelling";
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
  }
}

TEST(UnitTable, NeverSpellsTwoUnitsOfOneKindAlike) {
  std::map<std::pair<Kind, std::string>, std::string_view> seen;
  for (const Unit& unit : all_units()) {
    std::string all = std::string(unit.spellings) + " " + plain_unit_text(plain_text(unit.symbol).value());
    std::set<std::string> own;
    for (std::size_t at = 0; at <= all.size();) {
      const auto end = std::min(all.find(' ', at), all.size());
      std::string spelling = all.substr(at, end - at);
      for (char& c : spelling)
        c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      if (!spelling.empty()) own.insert(spelling);
      at = end + 1;
    }
    for (const std::string& spelling : own) {
      const auto [entry, fresh] = seen.insert({{unit.kind, spelling}, unit.symbol});
      EXPECT_TRUE(fresh) << spelling << " is both " << entry->second << " and " << unit.symbol;
    }
  }
}

TEST(UnitTable, ConvertsThereAndBackWithinARoundingError) {
  for (const Unit& unit : all_units()) {
    for (const double value : {0.0, 1.0, -3.7, 1250.25}) {
      EXPECT_NEAR(from_si(to_si(value, unit), unit), value, 1e-12 * (1 + std::fabs(value))) << unit.symbol;
      EXPECT_NEAR(step_from_si(step_to_si(value, unit), unit), value, 1e-15 * std::fabs(value))
          << unit.symbol;
    }
  }
}

TEST(FindUnit, TakesWhatKeyboardsAndPhonesProduce) {
  const auto symbol = [](std::string_view text, Kind kind) {
    const Unit* unit = find_unit(text, kind);
    return unit == nullptr ? std::string_view("none") : unit->symbol;
  };
  for (const char* text : {"µm", "μm", "um", "micron", "UM"})
    EXPECT_EQ(symbol(text, Kind::length), "µm") << text;
  for (const char* text : {"in", "in.", "inch", "Inches", "IN", "\"", "”", "″", "''", "’’"})
    EXPECT_EQ(symbol(text, Kind::length), "in") << text;
  for (const char* text :
       {"ft-lb", "ft·lb", "ft lb", "ft.lb", "lb-ft", "lbf·ft", "Ft-Lbs", "FT-LB", "ft.-lb.", "ft*lbf"})
    EXPECT_EQ(symbol(text, Kind::torque), "ft·lbf") << text;
  for (const char* text : {"N·m", "Nm", "N-m", "N.m", "N m", "NM", "N⋅m", "N×m"})
    EXPECT_EQ(symbol(text, Kind::torque), "N·m") << text;
  for (const char* text : {"°C", "ºC", "° C", "degC", "deg C", "deg. C", "C", "℃", "celsius", "Celsius"})
    EXPECT_EQ(symbol(text, Kind::temperature), "°C") << text;
  for (const char* text : {"m3/h", "m³/h", "m^3/h", "m³ / h", "M3/H"})
    EXPECT_EQ(symbol(text, Kind::volume_flow), "m³/h") << text;
  for (const char* text : {"rpm", "RPM", "r/min", "1/min", "min-1", "min⁻¹", "min^-1", "rev/min"})
    EXPECT_EQ(symbol(text, Kind::speed), "rpm") << text;
  for (const char* text : {"bar(g)", "barg", "bar g", "bar (g)", "BAR(G)", "bar gauge"})
    EXPECT_EQ(symbol(text, Kind::pressure_gauge), "bar(g)") << text;
  EXPECT_EQ(symbol("PSIG", Kind::pressure_gauge), "psig");
  EXPECT_EQ(symbol("psi abs", Kind::pressure_absolute), "psia");
  EXPECT_EQ(symbol("mPa.s", Kind::viscosity), "mPa·s");
}

TEST(FindUnit, DoesNotMistakeMilliForMega) {
  EXPECT_EQ(find_unit("mPa", Kind::pressure_difference), nullptr);
  EXPECT_EQ(find_unit("MPa·s", Kind::viscosity), nullptr);
  EXPECT_EQ(find_unit("Mm", Kind::length), nullptr);
  EXPECT_EQ(find_unit("MPA", Kind::pressure_difference)->symbol, "MPa");
  EXPECT_EQ(find_unit("MM", Kind::length)->symbol, "mm");
}

TEST(FindUnit, KeepsUnitsOfOtherKindsAndUnknownOnesOut) {
  EXPECT_EQ(find_unit("degC", Kind::length), nullptr);
  EXPECT_EQ(find_unit("lb", Kind::torque), nullptr);
  EXPECT_EQ(find_unit("psi", Kind::pressure_gauge), nullptr);
  EXPECT_EQ(find_unit("N·m", Kind::energy), nullptr);
  for (const char* text : {"", "furlong", "mmm", "in..", "-in", "ft-", "m/", "\xB5m", "thou\n2"})
    EXPECT_EQ(find_unit(text, Kind::length), nullptr) << text;
}

TEST(FindUnit, TellsPoundsOfForceFromPoundsOfMassByTheKindWanted) {
  EXPECT_EQ(find_unit("lb", Kind::mass)->symbol, "lb");
  EXPECT_EQ(find_unit("lb", Kind::force)->symbol, "lbf");
  EXPECT_EQ(find_unit("oz", Kind::force)->symbol, "ozf");
  EXPECT_EQ(find_unit("'", Kind::angle)->symbol, "arcmin");
  EXPECT_EQ(find_unit("'", Kind::length)->symbol, "ft");
}

TEST(SuitableUnit, FollowsTheSizeAndTheSystem) {
  EXPECT_EQ(suitable_unit(Kind::length, 5e-6, System::metric).symbol, "µm");
  EXPECT_EQ(suitable_unit(Kind::length, -1.8e-4, System::metric).symbol, "mm");
  EXPECT_EQ(suitable_unit(Kind::length, 12, System::metric).symbol, "m");
  EXPECT_EQ(suitable_unit(Kind::length, 7 * 2.54e-5, System::inch).symbol, "thou");
  EXPECT_EQ(suitable_unit(Kind::length, 0.0349, System::inch).symbol, "in");
  EXPECT_EQ(suitable_unit(Kind::torque, 5, System::inch).symbol, "in·lbf");
  EXPECT_EQ(suitable_unit(Kind::torque, 60, System::inch).symbol, "ft·lbf");
  EXPECT_EQ(suitable_unit(Kind::pressure_difference, 205e9, System::metric).symbol, "GPa");
  EXPECT_EQ(suitable_unit(Kind::pressure_gauge, 8e4, System::metric).symbol, "bar(g)");
  EXPECT_EQ(suitable_unit(Kind::temperature, 355.15, System::inch).symbol, "°F");
}

TEST(SuitableUnit, ExistsForEveryKindSystemAndSize) {
  for (const KindInfo& kind : all_kinds())
    for (const System system : {System::metric, System::inch})
      for (const double si : {0.0, -1e-9, 1e-3, 1.0, 1e3, 1e12, HUGE_VAL, std::nan("")})
        EXPECT_EQ(suitable_unit(kind.kind, si, system).kind, kind.kind) << kind.name;
}

}  // namespace
}  // namespace pumpwright
