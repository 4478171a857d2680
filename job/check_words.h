// The words for kinds of check and for what is judged: in step data, snapshots and on the wire. Never
// renamed.
#pragma once

#include <array>
#include <string_view>
#include <utility>

#include "job/check.h"

namespace pumpwright::job {

template <class E, std::size_t N>
using Words = std::array<std::pair<std::string_view, E>, N>;

inline constexpr Words<CheckKind, 10> check_kind_words{{{"confirmation", CheckKind::confirmation},
                                                        {"value", CheckKind::value},
                                                        {"size", CheckKind::size},
                                                        {"sweep", CheckKind::sweep},
                                                        {"chain", CheckKind::chain},
                                                        {"elapsed", CheckKind::elapsed},
                                                        {"preload", CheckKind::preload},
                                                        {"pairing", CheckKind::pairing},
                                                        {"service", CheckKind::service},
                                                        {"sheet", CheckKind::sheet}}};
inline constexpr Words<Judged, 27> judged_words{{{"confirmed", Judged::confirmed},
                                                 {"value", Judged::value},
                                                 {"local-size", Judged::local_size},
                                                 {"ovality", Judged::ovality},
                                                 {"taper", Judged::taper},
                                                 {"tir", Judged::tir},
                                                 {"eccentricity", Judged::eccentricity},
                                                 {"squareness", Judged::squareness},
                                                 {"suits", Judged::suits},
                                                 {"service-temperature", Judged::service_temperature},
                                                 {"vapour-ratio", Judged::vapour_ratio},
                                                 {"spring-force", Judged::spring_force},
                                                 {"face-pv", Judged::face_pv},
                                                 {"tracking-share", Judged::tracking_share},
                                                 {"face-margin", Judged::face_margin},
                                                 {"held", Judged::held},
                                                 {"leak", Judged::leak},
                                                 {"balanced", Judged::balanced},
                                                 {"aligned", Judged::aligned},
                                                 {"seal-deflection", Judged::seal_deflection},
                                                 {"critical-speed", Judged::critical_speed},
                                                 {"bearing-life", Judged::bearing_life},
                                                 {"guarantee", Judged::guarantee},
                                                 {"motor-load", Judged::motor_load},
                                                 {"severity", Judged::severity},
                                                 {"operating-point", Judged::operating_point},
                                                 {"written-down", Judged::written_down}}};
inline constexpr Words<Pair, 5> pair_words{{{"lubricant-elastomer", Pair::lubricant_elastomer},
                                            {"liquid-elastomer", Pair::liquid_elastomer},
                                            {"ring-seat", Pair::ring_seat},
                                            {"coil-rotation", Pair::coil_rotation},
                                            {"fastener-rotation", Pair::fastener_rotation}}};
inline constexpr Words<SheetOf, 8> sheet_words{{{"pressure-hold", SheetOf::pressure_hold},
                                                {"balance", SheetOf::balance},
                                                {"alignment", SheetOf::alignment},
                                                {"rotor", SheetOf::rotor},
                                                {"performance", SheetOf::performance},
                                                {"vibration", SheetOf::vibration},
                                                {"system", SheetOf::system},
                                                {"strip-down", SheetOf::strip_down}}};
inline constexpr Words<Goes, 3> goes_words{
    {{"together", Goes::together}, {"apart", Goes::apart}, {"unknown", Goes::unknown}}};
inline constexpr Words<Turning, 2> turning_words{
    {{"rotating", Turning::rotating}, {"standing", Turning::standing}}};

// The word of a value; every value has one.
template <class E, std::size_t N>
constexpr std::string_view word_in(const Words<E, N>& words, E value) {
  for (const auto& [word, known] : words)
    if (known == value) return word;
  return {};
}

}  // namespace pumpwright::job
