#include "engine/assembly/how_known.h"

namespace pumpwright {

const char* word_for(HowKnown how) {
  switch (how) {
    case HowKnown::read:
      return "read";
    case HowKnown::computed:
      return "computed";
    case HowKnown::remembered:
      return "remembered";
  }
  return "";
}

}  // namespace pumpwright
