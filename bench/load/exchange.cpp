#include "bench/load/exchange.h"

#include <utility>

#include <boost/beast/http/read.hpp>
#include <boost/beast/http/write.hpp>

namespace pumpwright::bench {

namespace http = boost::beast::http;
using Error = boost::system::error_code;

std::string Visitor::host() const {
  return server.address().to_string() + ":" + std::to_string(server.port());
}

std::string Visitor::cookie_header() const {
  std::string text;
  for (const auto& [name, value] : cookies)
    text.append(text.empty() ? "" : "; ").append(name).append("=").append(value);
  return text;
}

Exchange::Exchange(boost::asio::io_context& io, Visitor& visitor) : io_(io), visitor_(visitor), socket_(io) {}

void Exchange::ask(Question question, Answered answered) {
  answered_ = std::move(answered);
  request_ = {http::string_to_verb(question.method), question.target, 11};
  request_.set(http::field::host, visitor_.host());
  if (!visitor_.cookies.empty()) request_.set(http::field::cookie, visitor_.cookie_header());
  if (!visitor_.token.empty()) request_.set("X-Pumpwright-Token", visitor_.token);
  if (!question.body.empty()) request_.set(http::field::content_type, "application/json");
  request_.body() = std::move(question.body);
  request_.prepare_payload();
  socket_.is_open() ? write() : connect();
}

Answer Exchange::ask_now(Question question) {
  Answer got;
  ask(std::move(question), [&got](const Answer& answer) { got = answer; });
  io_.restart();
  io_.run();
  return got;
}

void Exchange::close() {
  Error ignored;
  socket_.close(ignored);
  buffer_.clear();
}

void Exchange::connect() {
  socket_.async_connect(visitor_.server, [this](const Error& error) {
    if (error) return done(error);
    socket_.set_option(boost::asio::ip::tcp::no_delay(true));
    write();
  });
}

void Exchange::write() {
  http::async_write(socket_, request_, [this](const Error& error, std::size_t /*bytes*/) {
    if (error) return done(error);
    read();
  });
}

void Exchange::read() {
  response_ = {};
  http::async_read(socket_, buffer_, response_,
                   [this](const Error& error, std::size_t /*bytes*/) { done(error); });
}

void Exchange::done(const Error& error) {
  Answer answer;
  if (error) {
    answer.body = error.message();
    close();
  } else {
    answer = {.status = static_cast<int>(response_.result_int()), .body = std::move(response_.body())};
    keep_cookies();
    if (!response_.keep_alive()) close();
  }
  // What is called may ask the next thing at once.
  const auto answered = std::exchange(answered_, nullptr);
  answered(answer);
}

void Exchange::keep_cookies() {
  const auto [first, last] = response_.equal_range(http::field::set_cookie);
  for (auto at = first; at != last; ++at) {
    const std::string text(at->value());
    const auto equals = text.find('=');
    const auto end = text.find(';');
    const auto value = text.substr(equals + 1, end - equals - 1);
    if (value.empty())
      visitor_.cookies.erase(text.substr(0, equals));
    else
      visitor_.cookies[text.substr(0, equals)] = value;
  }
}

}  // namespace pumpwright::bench
