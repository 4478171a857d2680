// The tables behind iso286.h, in micrometres as printed, each with how it is known. Nothing outside
// iso286.cpp uses them.
//
// Size steps are the main steps of ISO 286-1 up to 250 mm; s has finer steps of its own.
#pragma once

#include <array>
#include <cstddef>

#include "engine/assembly/how_known.h"

namespace pumpwright::iso286 {

// A size step: over the step before, up to and including this [mm].
inline constexpr std::array<double, 10> main_steps_mm{3, 6, 10, 18, 30, 50, 80, 120, 180, 250};
inline constexpr std::array<double, 16> fine_steps_mm{3,   6,   10,  18,  30,  50,  65,  80,
                                                      100, 120, 140, 160, 180, 200, 225, 250};

inline constexpr int first_grade = 5;
inline constexpr int last_grade = 11;

// IT5 to IT11 by main step. Read in a public table of IT1 to IT14 that restates ISO 286-1, Table 1; from 18
// mm up it agrees with the formulas of the standard within their rounding.
inline constexpr std::array<std::array<double, 7>, 10> standard_tolerance_um{{
    {4, 6, 10, 14, 25, 40, 60},
    {5, 8, 12, 18, 30, 48, 75},
    {6, 9, 15, 22, 36, 58, 90},
    {8, 11, 18, 27, 43, 70, 110},
    {9, 13, 21, 33, 52, 84, 130},
    {11, 16, 25, 39, 62, 100, 160},
    {13, 19, 30, 46, 74, 120, 190},
    {15, 22, 35, 54, 87, 140, 220},
    {18, 25, 40, 63, 100, 160, 250},
    {20, 29, 46, 72, 115, 185, 290},
}};

// Which grades of a letter are held: those ISO 286-2 tabulates within IT5 to IT11, and for which every number
// is here.
struct HeldClasses {
  const char* letters;
  int lowest_grade;
  int highest_grade;
  bool fine_steps = false;
};
inline constexpr std::array<HeldClasses, 19> held_classes{{
    {"f", 5, 10},  {"g", 5, 10}, {"h", 5, 11},       {"j", 5, 6},  {"js", 5, 11}, {"k", 5, 7},  {"m", 5, 9},
    {"n", 5, 9},   {"p", 5, 10}, {"s", 5, 10, true}, {"F", 5, 10}, {"G", 5, 10},  {"H", 5, 11}, {"J", 6, 8},
    {"JS", 5, 11}, {"K", 6, 8},  {"M", 6, 8},        {"N", 6, 11}, {"P", 6, 10},
}};

struct Entry {
  double um = 0;
  HowKnown how = HowKnown::read;
};

namespace mark {
// read in the table named; C: follows from read limits of other classes by the standard's own rules; M:
// remembered.
constexpr Entry R(double um) {
  return {um, HowKnown::read};
}
constexpr Entry C(double um) {
  return {um, HowKnown::computed};
}
constexpr Entry M(double um) {
  return {um, HowKnown::remembered};
}
}  // namespace mark

// One letter of shaft: its fundamental deviation by main step. For f, g the upper one (negative), for k to p
// the lower.
struct ShaftLetter {
  const char* letters;
  std::array<Entry, 10> um;
  const char* source;
};

inline constexpr std::array<ShaftLetter, 7> shaft_letters = [] {
  using namespace mark;
  return std::array<ShaftLetter, 7>{{
      {"f",
       {M(-6), R(-10), R(-13), R(-16), R(-20), R(-25), R(-30), R(-36), R(-43), R(-50)},
       "ISO 286-2 shaft limits as restated in JIS B 0401:1999 (to 80 mm) and a public table of f7 limits to "
       "250 mm"},
      {"g",
       {M(-2), R(-4), R(-5), R(-6), R(-7), R(-9), R(-10), M(-12), M(-14), R(-15)},
       "ISO 286-2 shaft limits as restated in JIS B 0401:1999; 180 to 250 mm: Machine Drawing textbook, "
       "shafts a to k"},
      {"k",
       {M(0), R(1), R(1), R(1), R(2), R(2), R(2), C(3), C(3), R(4)},
       "ISO 286-2 shaft limits as restated in JIS B 0401:1999; 80 to 180 mm from K7 hole limits; over 180 "
       "mm: Machine "
       "Drawing textbook, shafts a to k"},
      {"m",
       {M(2), R(4), R(6), R(7), R(8), R(9), R(11), R(13), R(15), C(17)},
       "ISO 286-2 shaft limits as restated in JIS B 0401:1999 and in a Machine Drawing textbook, Table 15.2; "
       "over 180 mm from "
       "M7 hole limits"},
      {"n",
       {M(4), R(8), R(10), R(12), R(15), R(17), R(20), R(23), R(27), C(31)},
       "ISO 286-2 shaft limits as restated in JIS B 0401:1999 and in a Machine Drawing textbook, Table 15.2; "
       "over 180 mm from "
       "N7 hole limits"},
      {"p",
       {M(6), R(12), R(15), R(18), R(22), R(26), R(32), R(37), R(43), C(50)},
       "ISO 286-2 shaft limits as restated in JIS B 0401:1999 and in a Machine Drawing textbook, Table 15.2; "
       "over 180 mm from "
       "P7 hole limits"},
      {"h", {R(0), R(0), R(0), R(0), R(0), R(0), R(0), R(0), R(0), R(0)}, "ISO 286-1: zero by definition"},
  }};
}();

// j5 and j6, lower deviation by main step.
inline constexpr const char* shaft_j_source =
    "over 30 mm: IEC 60072-1, Table C.1.7 (j6 spigots), as restated in EASA AR100-2020, Table 2-10 (draft "
    "page); below: "
    "ISO 286-1:2010, fundamental deviations of shafts";
inline constexpr std::array<Entry, 10> shaft_j_um = [] {
  using namespace mark;
  return std::array<Entry, 10>{M(-2), M(-2), M(-2), M(-3), M(-4), R(-5), R(-7), R(-9), R(-11), R(-13)};
}();

// s5 to s10, lower deviation by fine step.
inline constexpr const char* shaft_s_source =
    "ISO 286-1:2010, fundamental deviations of shafts; read for 18 to 30 mm (20 mm H7/s6 in the companion "
    "data of a machine "
    "design textbook) and 30 to 50 mm (39 mm H7/s6 in an engine maker's tolerance sheet)";
inline constexpr std::array<Entry, 16> shaft_s_um = [] {
  using namespace mark;
  return std::array<Entry, 16>{M(14), M(19), M(23), M(28),  R(35),  R(43),  M(53),  M(59),
                               M(71), M(79), M(92), M(100), M(108), M(122), M(130), M(140)};
}();

// J6, J7, J8, upper deviation by main step.
inline constexpr const char* hole_j_source =
    "ISO 286-2 hole limits; J7 over 18 mm read in a mould-base maker's technical table, where each span "
    "equals IT7";
inline constexpr std::array<std::array<Entry, 10>, 3> hole_j_um = [] {
  using namespace mark;
  return std::array<std::array<Entry, 10>, 3>{{
      {M(2), M(5), M(5), M(6), M(8), M(10), M(13), M(16), M(18), M(22)},
      {M(4), M(6), M(8), M(10), R(12), R(14), R(18), R(22), R(26), R(30)},
      {M(6), M(10), M(12), M(15), M(20), M(24), M(28), M(34), M(41), M(47)},
  }};
}();

}  // namespace pumpwright::iso286
