// How a tabulated number came into the engine, carried along with the number to wherever it is shown.
#pragma once

namespace pumpwright {

enum class HowKnown {
  read,        // read in the document or in a public restatement of it
  computed,    // follows by the document's own rule from numbers that were read
  remembered,  // from memory, not compared with the document: shown as such, never decides by itself
};

// The weaker of the two, for a result built from both.
constexpr HowKnown weaker(HowKnown a, HowKnown b) {
  return a < b ? b : a;
}

// "read", "computed" or "remembered".
const char* word_for(HowKnown how);

}  // namespace pumpwright
