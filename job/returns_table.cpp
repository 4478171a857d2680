#include "job/returns_table.h"

#include <algorithm>

namespace pumpwright::job {

std::string_view word_for(reliability::Ending ending) {
  return std::find_if(ending_words.begin(), ending_words.end(),
                      [ending](const auto& known) { return known.second == ending; })
      ->first;
}

}  // namespace pumpwright::job
