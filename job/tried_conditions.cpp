#include "job/tried_conditions.h"

#include "engine/quantity/parse.h"
#include "engine/seal/atmosphere.h"

namespace pumpwright::job {
namespace {

constexpr double working_length_max_m = 1;

class Reader {
 public:
  Reader(const TriedConditions& tried, const std::string& prefix) : tried_(tried), prefix_(prefix) {}

  // True when the condition is given; `field` then has it.
  template <class Field>
  bool take(const std::string& text, Kind kind, const char* name, Field& field) const {
    if (text.empty()) return false;
    field = parse_written(text, kind, {.field = prefix_ + name});
    return true;
  }

  bool take_speed(Written& speed) const {
    if (!take(tried_.speed, Kind::speed, "speed", speed)) return false;
    if (speed.si <= 0) throw refused("speed", tried_.speed, "a speed above zero");
    return true;
  }

  bool take_head(std::optional<Written>& head) const {
    if (!take(tried_.head, Kind::pressure_difference, "head", head)) return false;
    if (head->si < 0) throw refused("head", tried_.head, "a pressure not below zero");
    return true;
  }

  bool take_altitude(std::optional<Written>& altitude) const {
    if (!take(tried_.altitude, Kind::length, "altitude", altitude)) return false;
    try {
      seal::standard_atmosphere(metres(altitude->si));
    } catch (const BadInput& e) {
      throw refused("altitude", tried_.altitude, e.what_was_wrong().expected);
    }
    return true;
  }

  bool take_length(std::optional<Length>& length) const {
    Written written;
    if (!take(tried_.length, Kind::length, "length", written)) return false;
    if (written.si <= 0 || written.si > working_length_max_m)
      throw refused("length", tried_.length, "a length above zero, at most 1 m");
    length = metres(written.si);
    return true;
  }

 private:
  BadInput refused(const char* name, const std::string& value, const std::string& expected) const {
    return BadInput({.field = prefix_ + name, .place = "", .value = value, .expected = expected});
  }

  const TriedConditions& tried_;
  const std::string& prefix_;
};

}  // namespace

SealQuestion ask_of_seal(const TriedConditions& tried, const Snapshot& snapshot, const std::string& prefix) {
  SealQuestion q{snapshot, {}, false};
  Service& service = q.snapshot.make_up.service;
  const Reader read(tried, prefix);
  for (const bool given :
       {read.take(tried.temperature, Kind::temperature, "temperature", service.temperature),
        read.take(tried.suction, Kind::pressure_gauge, "suction", service.suction_pressure),
        read.take_head(service.head_pressure), read.take_speed(q.snapshot.make_up.speed),
        read.take_altitude(service.altitude), read.take_length(q.length)})
    q.tried = q.tried || given;
  return q;
}

}  // namespace pumpwright::job
