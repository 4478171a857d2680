#include "cli/job_session.h"

#include "cli/program_identity.h"
#include "shop/record.h"

namespace pumpwright {

JobSession open_job(const std::string& path, const CatalogFiles& files, std::istream& standard_input) {
  JobSession session;
  session.path = path;
  session.bytes = read_input(path, json_bytes_max, standard_input);
  const auto catalog = Catalog::load(files.files());
  naming_file(path, [&] {
    if (shop::looks_like_record(session.bytes)) {
      const job::JobLog log = shop::job_in(shop::decode_record(session.bytes));
      session.file = log.job().file;
      session.frozen = true;
      session.snapshot = log.snapshot();
      return;
    }
    session.file = job::decode_job_file(session.bytes);
    session.frozen = session.file.snapshot.has_value();
    session.snapshot = job::snapshot_of(session.file, catalog, files.step_files(), program_identity());
  });
  return session;
}

job::Snapshot snapshot_at_hand(const JobSession& session, const CatalogFiles& files) {
  const auto catalog = Catalog::load(files.files());
  return naming_file(session.path, [&] {
    return job::derive_snapshot(session.file, catalog, files.step_files(), program_identity());
  });
}

JudgedState judged(const JobSession& session, const job::Snapshot& snapshot) {
  return naming_file(session.path, [&] {
    auto state = job::fold(snapshot.plan, session.file.events);
    auto judgement = job::judge(snapshot, state);
    return JudgedState{.state = std::move(state), .judgement = std::move(judgement)};
  });
}

}  // namespace pumpwright
