#include "job/plan.h"

#include <array>

namespace pumpwright::job {
namespace {

struct StageWords {
  Stage stage;
  std::string_view word;
  const char* en;
  const char* es;
};

constexpr std::array<StageWords, 7> stages{{
    {Stage::receive, "receive", "Receive", "Recibir"},
    {Stage::measure_driver, "measure-driver", "Measure the driver", "Medir el motor"},
    {Stage::measure_parts, "measure-parts", "Measure the parts", "Medir las piezas"},
    {Stage::fit, "fit", "Fit", "Montar"},
    {Stage::check_running, "check-running", "Check running", "Comprobar la marcha"},
    {Stage::close_and_test, "close-and-test", "Close and test", "Cerrar y probar"},
    {Stage::release, "release", "Release", "Entregar"},
}};

}  // namespace

std::string_view word_of(Stage stage) {
  return stages[static_cast<std::size_t>(stage)].word;
}

std::optional<Stage> stage_from(std::string_view word) {
  for (const auto& s : stages)
    if (s.word == word) return s.stage;
  return std::nullopt;
}

Text title_of(Stage stage) {
  const auto& s = stages[static_cast<std::size_t>(stage)];
  return {s.en, s.es};
}

const Check* Plan::find(std::string_view check_id) const {
  for (const auto& s : steps)
    for (const auto& c : s.checks)
      if (c.id == check_id) return &c;
  return nullptr;
}

const Step* Plan::step(std::string_view step_id) const {
  for (const auto& s : steps)
    if (s.id == step_id) return &s;
  return nullptr;
}

const Step* Plan::step_of(std::string_view check_id) const {
  for (const auto& s : steps)
    for (const auto& c : s.checks)
      if (c.id == check_id) return &s;
  return nullptr;
}

}  // namespace pumpwright::job
