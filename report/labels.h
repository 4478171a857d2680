// Every fixed word of the drawings and the build record, in every language, in one table.
//
// Step titles, cautions and verdict reasons are data or belong to the domain model; what stands here is the
// furniture of the page. A text with {} takes a value.
#pragma once

#include <string>
#include <string_view>

#include "catalog/source.h"
#include "job/limit.h"
#include "job/text.h"

namespace pumpwright::report {

enum class Label {
  // title block
  build_record,
  invented,
  job,
  customer,
  pump,
  serial,
  came_in_for,
  opened,
  last_entry,
  make_up,
  driver,
  shaft_up,
  shaft_level,
  seal,
  seal_lubricant,
  mounted_on_sleeve,
  mounted_on_shaft,
  fastener,
  service,
  speed,
  not_stated,
  // verdicts
  verdicts,
  all_pass,
  not_all_pass,
  count_pass,
  count_fail,
  count_unproven,
  count_not_taken,
  deviation_accepted,
  // section
  half_section,
  turns,
  stands,
  size_assumed,
  scale,
  assumed_list,
  set_aside_list,
  schematic_note,
  // table
  verdict_table,
  column_verdict,
  column_check,
  column_reading,
  column_limit,
  column_uncertainty,
  read_by,
  no_limit,
  not_read,
  confirmed_yes,
  confirmed_no,
  also_known,
  settle,
  two_sigma,
  margin,
  conforms_with,
  points_read,
  guarded,
  simple,
  // sweeps
  sweeps,
  sweeps_note,
  keyway,
  top,
  from_impeller_end,
  magnified,
  mean_circle,
  fitted_circle,
  limit_band_tir,
  high_spot,
  limit_outside_picture,
  high_spot_keyway,
  high_spot_clock,
  no_direction_mount,
  no_direction_uncertain,
  suspect,
  gap,
  tir,
  eccentricity,
  squareness,
  limit,
  no_points,
  // chain
  chains,
  chain_result,
  chain_window,
  chain_magnified,
  chain_share,
  chain_missing,
  // the seal's faces
  seal_service,
  seal_service_note,
  bench_tests,
  bench_tests_note,
  true_running,
  true_running_note,
  true_turning,
  true_standing,
  true_reading,
  true_caption,
  face_film,
  face_pressure,
  face_summits,
  face_temperature,
  seal_margin,
  seal_least_suction,
  seal_balance,
  seal_spring,
  seal_friction,
  seal_heat,
  seal_hottest,
  seal_touch,
  seal_leak,
  // rest
  replaced,
  replaced_none,
  replaced_by,
  before_remedy,
  replaced_when,
  open_points,
  open_none,
  deviations,
  deviations_none,
  holds,
  holds_none,
  hold_line,
  deviation_line,
  what_to_do,
  suction,
  written_list,
  too_many_to_list,
  cut_short,
  seal_detail,
  diameters,
  signatures,
  signatures_note,
  technician,
  lead_hand,
  name_initials,
  date,
  signature,
  record_hash,
  made_with,
  catalog_digest,
  page_of,
  subject_line,
  author_role,
  role,
};

const std::string& text_of(Label label, job::Language language);

// Short name of a place on the section; the place itself when it is not known.
job::Text place_title(std::string_view place);

// Short name of a make-up dimension; its key when it is not known.
job::Text dimension_title(std::string_view dimension);

job::Text seal_kind_title(std::string_view kind);

}  // namespace pumpwright::report
