#include "cli/record_files.h"

#include <array>
#include <filesystem>
#include <system_error>

#include <fmt/format.h>

#include "catalog/digest.h"
#include "cli/command.h"
#include "report/drawings.h"
#include "report/readings_csv.h"
#include "report/readings_qif.h"

namespace pumpwright {
namespace {

namespace fs = std::filesystem;

// "sweep:impeller/r12" as "sweep-impeller-r12": a job can not choose where a file goes.
std::string file_name_of(std::string_view drawing) {
  std::string name;
  for (const char c : drawing) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
    name += plain ? c : '-';
  }
  return name;
}

void write_drawings(const report::BuildRecordInput& input, const std::string& directory) {
  std::error_code failure;
  fs::create_directories(directory, failure);
  if (!fs::is_directory(directory))
    throw bad_argument("--drawings", directory, fmt::format("a directory ({})", failure.message()));
  for (const auto& name : report::drawing_names(input))
    for (const auto& [picture, suffix] :
         {std::pair(report::Picture::svg, ".svg"), std::pair(report::Picture::png, ".png")})
      if (const auto bytes = report::drawing(input, name, picture))
        write_output((fs::path(directory) / (file_name_of(name) + suffix)).string(), *bytes, "--drawings");
}

}  // namespace

std::string record_hash(const JobSession& session) {
  const std::array<NamedBytes, 1> record{{{.name = "record", .bytes = session.bytes}}};
  return digest_of(record);
}

report::BuildRecordInput record_input(const JobSession& session, const job::JobState& state,
                                      const job::Judgement& judgement, const job::Section& section,
                                      job::Language language, report::Paper paper) {
  return {.header = session.file.header,
          .snapshot = session.snapshot,
          .state = state,
          .judgement = judgement,
          .section = section,
          .record_hash = record_hash(session),
          .language = language,
          .paper = paper};
}

void write_record(const JobSession& session, const JobVerdict& verdict, const RecordFiles& files) {
  if (files.report.empty() && files.drawings.empty() && files.readings.empty()) return;
  const auto section = job::section_of(session.snapshot.make_up);
  const auto input =
      record_input(session, verdict.state, verdict.judgement, section, files.language, files.paper);
  if (!files.report.empty()) {
    const auto pdf = naming_file(session.path, [&] { return report::build_record_pdf(input); });
    write_output(files.report, pdf, "--report");
  }
  if (!files.drawings.empty()) write_drawings(input, files.drawings);
  if (!files.readings.empty())
    write_output(files.readings,
                 fs::path(files.readings).extension() == ".qif" ? report::readings_qif(input)
                                                                : report::readings_csv(input),
                 "--readings");
}

}  // namespace pumpwright
