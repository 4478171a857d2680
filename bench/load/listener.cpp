#include "bench/load/listener.h"

#include <charconv>
#include <utility>

#include <boost/asio/buffer.hpp>
#include <boost/asio/write.hpp>
#include <fmt/format.h>

namespace pumpwright::bench {

using Error = boost::system::error_code;

Listener::Listener(boost::asio::io_context& io, const Visitor& visitor, Setting setting, Faults& faults)
    : socket_(io), visitor_(visitor), setting_(std::move(setting)), faults_(faults) {}

void Listener::listen() {
  request_ = fmt::format(
      "GET /api/jobs/{}/changes?after={} HTTP/1.1\r\nHost: {}\r\nCookie: {}\r\nAccept: "
      "text/event-stream\r\n\r\n",
      setting_.job, setting_.after, visitor_.host(), visitor_.cookie_header());
  socket_.async_connect(visitor_.server, [this](const Error& error) {
    if (error) return fail(error.message());
    send_request();
  });
}

void Listener::send_request() {
  boost::asio::async_write(socket_, boost::asio::buffer(request_),
                           [this](const Error& error, std::size_t /*bytes*/) {
                             if (error) return fail(error.message());
                             read();
                           });
}

void Listener::read() {
  socket_.async_read_some(boost::asio::buffer(bytes_), [this](const Error& error, std::size_t count) {
    if (error) return fail(error.message());
    text_.append(bytes_.data(), count);
    take_lines();
    read();
  });
}

void Listener::take_lines() {
  std::size_t from = 0;
  for (auto end = text_.find('\n'); end != std::string::npos; end = text_.find('\n', from)) {
    auto line = std::string_view(text_).substr(from, end - from);
    from = end + 1;
    if (in_head_ && line.ends_with('\r')) line.remove_suffix(1);
    in_head_ ? take_head_line(line) : take_stream_line(line);
  }
  text_.erase(0, from);
}

void Listener::take_head_line(std::string_view line) {
  if (line.starts_with("HTTP/") && !line.starts_with("HTTP/1.1 200 "))
    return fail("answer " + std::string(line));
  if (!line.empty()) return;
  in_head_ = false;
  listens_ = true;
}

// An empty line ends a message. Comments keep the connection alive and say nothing.
void Listener::take_stream_line(std::string_view line) {
  constexpr std::string_view id = "id: ";
  if (line.starts_with(id)) {
    std::from_chars(line.data() + id.size(), line.data() + line.size(), id_);
  } else if (line.empty() && id_ != 0) {
    heard_.push_back({std::exchange(id_, 0), std::chrono::steady_clock::now()});
    if (setting_.on_change) setting_.on_change();
  }
}

void Listener::close() {
  closing_ = true;
  Error ignored;
  socket_.close(ignored);
}

void Listener::fail(const std::string& what) {
  if (!closing_) faults_.add(setting_.device + " listening to " + setting_.job + ": " + what);
  close();
}

}  // namespace pumpwright::bench
