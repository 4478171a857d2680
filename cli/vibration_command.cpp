#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/program.h"
#include "cli/thread_executor.h"
#include "cli/vibration_question.h"
#include "job/sheets/wav.h"

namespace pumpwright {
namespace {

struct VibrationArguments {
  std::string file;
  bool json = false;
};

// In SI.
job::RecordedSignal read_recording(const VibrationArguments& a, const SignalRead& signal,
                                   const Surroundings& surroundings) {
  const std::string path = beside(a.file, signal.path);
  const std::string bytes =
      read_input(path, signal.wav ? recording_bytes_max : csv_bytes_max, surroundings.in);
  job::RecordedSignal out = naming_file(path, [&] {
    return signal.wav ? job::read_wav(bytes, signal.channel) : read_signal_csv(bytes, signal.columns);
  });
  for (double& sample : out.samples)
    sample *= signal.si_per_unit;
  return out;
}

Answer run_vibration(const VibrationArguments& a, const Surroundings& surroundings) {
  VibrationQuestion question;
  question.file = a.file;
  const std::string bytes = read_input(a.file, json_bytes_max, surroundings.in);
  question.sheet = naming_file(a.file, [&] { return decode_vibration_file(bytes); });
  if (question.sheet.signal) question.recording = read_recording(a, *question.sheet.signal, surroundings);
  ThreadExecutor executor(ThreadExecutor::threads_of_this_machine());
  const auto finding = answer(question, executor);
  const bool well = finding.verdict.empty() || finding.verdict == "pass";
  return {.text = a.json ? vibration_json(question, finding)
                         : vibration_text(question, finding, surroundings.colour),
          .exit_status = well ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_vibration_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<VibrationArguments>();
  auto* command =
      add_command(app, "vibration", "Overall vibration by zone, and which tones of a recording stand out",
                  "pumpwright vibration docs/examples/vibration-orchard-wash.json");
  is_file(
      *command
           ->add_option("FILE", a->file, "Vibration file (docs/vibration.schema.json); - for standard input")
           ->required());
  command->add_flag("--json", a->json, "Print JSON in SI units instead of text");
  command->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_vibration(*a, surroundings); };
  });
}

}  // namespace pumpwright
