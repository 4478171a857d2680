#include "cli/performance_question.h"

#include "cli/input_file.h"

namespace pumpwright {

PerformanceAnswer answer(const PerformanceQuestion& q, Executor& executor) {
  return naming_file(q.file, [&] {
    PerformanceAnswer out{job::performance_finding(q.sheet), {}};
    if (!q.sampling || !q.sheet.guarantee) return out;
    const auto& g = *q.sheet.guarantee;
    out.sampled = job::placed("/guarantee", [&] {
      return hydraulics::sample_acceptance(out.finding.model, g.promised, g.rule, *q.sampling, executor);
    });
    return out;
  });
}

}  // namespace pumpwright
