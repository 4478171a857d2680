// The shop as it stands: the fold of the shop's own stream.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "job/job_file.h"
#include "job/snapshot.h"
#include "job/text.h"
#include "shop/person.h"

namespace pumpwright::shop {

struct Device {
  std::string id;
  std::string name;
  bool active = true;
};

// A limit of the shop's own for one check, for one pump family, for one customer, or for all.
struct OwnLimit {
  std::string id;
  std::string check;
  std::string rank;          // "family" or "customer"
  std::string applies_to;    // the family's or customer's name; empty: every job
  std::string lower, upper;  // as written; either may be empty
  std::string source;        // where it comes from
  std::string by, at;
};

// What the shop wrote down of a pump family: make-up fields to begin with.
struct Sheet {
  std::string family;
  std::string make_up;  // JSON object, as handed in
  std::string by, at;
};

// The shop's own words for a step.
struct OwnStepText {
  std::string step;
  job::Text what_to_do;
  std::string by, at;
};

// Which column of the shop's old records means what, under a name, so that the next file is read alike.
struct NamedColumns {
  std::string name;
  std::string columns;  // JSON object, see shop/old_table.h
  std::string by, at;
};

// Who changed what, for people to read.
struct ShopChange {
  std::uint64_t seq = 0;
  std::string at, actor, type;
  job::Text text;
};

struct ShopState {
  std::string name;
  bool invented = false;  // demonstration data
  std::map<std::string, Person> people;
  std::map<std::string, Device> devices;
  std::map<std::string, job::ShopInstrument> instruments;  // those in use
  std::map<std::string, job::Adoption> adoptions;
  std::map<std::string, OwnLimit> limits;
  std::map<std::string, Sheet> sheets;
  std::map<std::string, OwnStepText> step_texts;
  std::map<std::string, NamedColumns> old_columns;
  std::vector<ShopChange> changes;
  std::uint64_t seq = 0;
};

}  // namespace pumpwright::shop
