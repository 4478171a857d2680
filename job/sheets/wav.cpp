#include "job/sheets/wav.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <optional>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::job {
namespace {

[[noreturn]] void refuse_wav(const std::string& value, const std::string& expected) {
  throw BadInput({"file", "", value, expected});
}

// Little-endian numbers at a place; the caller has seen that they are there.
std::uint32_t number_at(std::string_view bytes, std::size_t at, std::size_t size) {
  std::uint32_t out = 0;
  for (std::size_t i = 0; i < size; ++i)
    out |= std::uint32_t{static_cast<unsigned char>(bytes[at + i])} << (8 * i);
  return out;
}

struct WavFormat {
  std::uint32_t code = 0, channels = 0, rate = 0, frame_bytes = 0, bits = 0;
};

constexpr std::uint32_t integers = 1, floats = 3, extensible = 0xFFFE;

WavFormat read_format(std::string_view chunk) {
  if (chunk.size() < 16) refuse_wav("a short format chunk", "a WAV file");
  WavFormat f{number_at(chunk, 0, 2), number_at(chunk, 2, 2), number_at(chunk, 4, 4), number_at(chunk, 12, 2),
              number_at(chunk, 14, 2)};
  if (f.code == extensible && chunk.size() >= 26) f.code = number_at(chunk, 24, 2);
  const bool known = (f.code == integers && (f.bits == 16 || f.bits == 24 || f.bits == 32)) ||
                     (f.code == floats && f.bits == 32);
  if (!known)
    refuse_wav(fmt::format("code {} with {} bits", f.code, f.bits),
               "integers of 16, 24 or 32 bits or floats of 32 bits");
  if (f.channels == 0 || f.rate == 0 || f.frame_bytes != f.channels * f.bits / 8)
    refuse_wav("a format chunk that contradicts itself", "a WAV file");
  return f;
}

double sample_at(std::string_view data, std::size_t at, const WavFormat& f) {
  const std::size_t size = f.bits / 8;
  const std::uint32_t raw = number_at(data, at, size);
  if (f.code == floats) return static_cast<double>(std::bit_cast<float>(raw));
  // The sign bit to the top, then back down as a fraction of full scale.
  const auto shifted = static_cast<std::int32_t>(raw << (32 - f.bits));
  return static_cast<double>(shifted) / 2147483648.0;
}

struct Chunks {
  std::optional<WavFormat> format;
  std::optional<std::string_view> data;
};

Chunks chunks_of(std::string_view bytes) {
  if (bytes.size() < 12 || bytes.substr(0, 4) != "RIFF" || bytes.substr(8, 4) != "WAVE")
    refuse_wav("no RIFF/WAVE header", "a WAV file");
  Chunks out;
  std::size_t at = 12;
  while (at + 8 <= bytes.size()) {
    const std::string_view name = bytes.substr(at, 4);
    const std::size_t size = number_at(bytes, at + 4, 4);
    const std::string_view chunk = bytes.substr(at + 8, size);
    if (name == "fmt ") out.format = read_format(chunk);
    if (name == "data") out.data = chunk;  // of a file that was cut off: what there is
    at += 8 + size + size % 2;
  }
  return out;
}

}  // namespace

RecordedSignal read_wav(std::string_view bytes, int channel) {
  const Chunks chunks = chunks_of(bytes);
  if (!chunks.format || !chunks.data) refuse_wav("no format or no data chunk", "a WAV file");
  const WavFormat& f = *chunks.format;
  if (channel < 1 || static_cast<std::uint32_t>(channel) > f.channels)
    throw BadInput({"channel", "", std::to_string(channel), fmt::format("1 to {}", f.channels)});
  RecordedSignal out;
  out.rate = Frequency::from_value(f.rate);
  const std::size_t frames = chunks.data->size() / f.frame_bytes;
  const std::size_t first = static_cast<std::size_t>(channel - 1) * (f.bits / 8);
  out.samples.reserve(frames);
  for (std::size_t i = 0; i < frames; ++i)
    out.samples.push_back(sample_at(*chunks.data, i * f.frame_bytes + first, f));
  if (!std::all_of(out.samples.begin(), out.samples.end(), [](double x) { return std::isfinite(x); }))
    refuse_wav("a sample that is no number", "samples that are numbers");
  return out;
}

}  // namespace pumpwright::job
