// One connection, plain or TLS: reads a request, has it answered, writes the answer, and again; or turns into
// an event stream. Private to the transport. Everything of a connection runs on its own strand, so nothing
// here is locked.
#pragma once

#include <array>
#include <atomic>
#include <chrono>
#include <ctime>
#include <memory>
#include <optional>
#include <string>
#include <utility>

#include <boost/asio/dispatch.hpp>
#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/ssl/context.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/error.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/string_body.hpp>
#include <boost/beast/ssl/ssl_stream.hpp>

#include "server/connection_registry.h"
#include "server/event_channel.h"
#include "server/http_text.h"
#include "server/transport.h"
#include "server/worker_pool.h"

namespace pumpwright::server {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = boost::beast::http;

// What all connections share.
struct ConnectionSurroundings {
  TransportLimits limits;
  Transport::Callbacks callbacks;
  WorkerPool* workers = nullptr;
  WorkerPool* slow_workers = nullptr;
  std::atomic<bool> stopping = false;
};

// The addresses at both ends, without ports.
struct ConnectionEnds {
  std::string peer, local;
};

template <class Stream>
class Connection final : public LiveConnection, public std::enable_shared_from_this<Connection<Stream>> {
 public:
  static constexpr bool is_tls = !std::is_same_v<Stream, beast::tcp_stream>;
  using Error = boost::system::error_code;

  Connection(Stream stream, ConnectionEnds ends, std::shared_ptr<void> place,
             ConnectionSurroundings& surroundings)
      : place_(std::move(place)),
        surroundings_(surroundings),
        ends_(std::move(ends)),
        stream_(std::move(stream)),
        keeps_running_(stream_.get_executor()),
        buffer_(std::size_t{96} * 1024),
        heartbeat_(stream_.get_executor()) {}

  void start() {
    asio::dispatch(stream_.get_executor(), [self = this->shared_from_this()] { self->shake_hands(); });
  }

  void finish() override {
    asio::post(stream_.get_executor(), [self = this->shared_from_this()] {
      if (self->waits_) self->lowest().cancel();
      if (self->response_.stream) self->end_stream();
    });
  }

 private:
  const TransportLimits& limits() const { return surroundings_.limits; }
  beast::tcp_stream& lowest() { return beast::get_lowest_layer(stream_); }

  void shake_hands() {
    if constexpr (is_tls) {
      lowest().expires_after(limits().handshake_time);
      stream_.async_handshake(asio::ssl::stream_base::server, [self = this->shared_from_this()](Error error) {
        if (!error) self->wait_for_request();
      });
    } else {
      wait_for_request();
    }
  }

  // --- bytes: one kind of read and one kind of write, so that few templates are made of either

  using Next = void (Connection::*)();
  using Written = void (Connection::*)(Error);

  // Reads what has come into the buffer, then goes on with `next`; hangs up when nothing can come any more.
  void read_more(std::size_t bytes_max, Next next) {
    stream_.async_read_some(buffer_.prepare(bytes_max),
                            [self = this->shared_from_this(), next](Error error, std::size_t bytes) {
                              if (error) return self->on_read_failed();
                              self->buffer_.commit(bytes);
                              ((*self).*next)();
                            });
  }

  void on_read_failed() { response_.stream ? end_stream() : end(); }

  // The bytes must stay where they are until `next` is called.
  void write_bytes(std::string_view first, std::string_view second, Written next) {
    asio::async_write(stream_,
                      std::array<asio::const_buffer, 2>{asio::buffer(first.data(), first.size()),
                                                        asio::buffer(second.data(), second.size())},
                      [self = this->shared_from_this(), next](Error error, std::size_t /*bytes*/) {
                        ((*self).*next)(error);
                      });
  }

  // --- reading

  void wait_for_request() {
    if (surroundings_.stopping) return end();
    if (buffer_.size() > 0) return read_head();
    waits_ = true;
    lowest().expires_after(limits().idle_time);
    read_more(head_read_bytes, &Connection::read_head);
  }

  void read_head() {
    parser_.emplace();
    parser_->header_limit(limits().head_bytes_max);
    parser_->body_limit(limits().body_bytes_max);
    parser_->eager(false);
    lowest().expires_after(limits().head_time);
    parse_head();
  }

  // Hands the parser what is there. need_more: nothing is left of it and the parser wants more.
  Error feed() {
    Error error;
    if (buffer_.size() == 0) return http::error::need_more;
    const asio::const_buffer bytes = buffer_.data();
    buffer_.consume(parser_->put(bytes, error));
    return error;
  }

  void parse_head() {
    const auto error = feed();
    if (error == http::error::need_more) return read_more(head_read_bytes, &Connection::parse_head);
    on_head(error);
  }

  void on_head(Error error) {
    began_ = std::chrono::steady_clock::now();
    keep_alive_ = !error && parser_->get().keep_alive() && !surroundings_.stopping;
    waits_ = false;
    method_.clear();
    target_.clear();
    if (error) return complain_about(error);
    request_ = head_as_read();
    method_ = request_.method;
    target_ = request_.target;
    if (parser_->chunked() || request_.header("transfer-encoding"))
      return refuse(surroundings_.callbacks.complaint(411));
    admission_ = surroundings_.callbacks.admit(request_);
    const auto length = parser_->content_length().value_or(0);
    if (admission_.refused) {
      if (length > small_body_bytes) return refuse(std::move(*admission_.refused));
      answer_without_reading(std::move(*admission_.refused));
    } else if (length > admission_.body_bytes_max) {
      return refuse(surroundings_.callbacks.complaint(413));
    }
    if (length == 0) return have_it_answered();
    if (lower_case(request_.header("expect").value_or("")) == "100-continue") return invite_body();
    read_body();
  }

  HttpRequest head_as_read() const {
    HttpRequest head;
    const auto& message = parser_->get();
    head.method = std::string(message.method_string());
    head.target = std::string(message.target());
    for (const auto& field : message)
      head.headers.push_back(
          {lower_case({field.name_string().data(), field.name_string().size()}), std::string(field.value())});
    head.peer = ends_.peer;
    head.local = ends_.local;
    head.secure = is_tls;
    return head;
  }

  // A small body of a refused request is read and forgotten, so that the connection can stay.
  void answer_without_reading(HttpResponse refused) {
    admission_.refused.reset();
    admission_.runs = Runs::at_once;
    admission_.answer = [response = std::move(refused)](const HttpRequest& /*unused*/) { return response; };
  }

  void invite_body() {
    head_text_ = "HTTP/1.1 100 Continue\r\n\r\n";
    lowest().expires_after(limits().write_time);
    write_bytes(head_text_, {}, &Connection::on_invited);
  }

  void on_invited(Error error) {
    if (!error) read_body();
  }

  void read_body() {
    parser_->eager(true);
    lowest().expires_after(limits().body_time);
    parse_body();
  }

  void parse_body() {
    Error error;
    while (!error && !parser_->is_done())
      error = feed();
    if (error == http::error::need_more) return read_more(body_read_bytes, &Connection::parse_body);
    if (error) return complain_about(error);
    request_.body = std::move(parser_->get().body());
    have_it_answered();
  }

  // Nothing can be said to someone who went silent (the socket is closed by then) or went away.
  void complain_about(Error error) {
    if (error == http::error::header_limit || error == http::error::buffer_overflow)
      return refuse(surroundings_.callbacks.complaint(431));
    if (error == http::error::body_limit) return refuse(surroundings_.callbacks.complaint(413));
    if (error == http::error::end_of_stream || error == http::error::partial_message) return end();
    if (error.category() == http::make_error_code(http::error::bad_method).category())
      return refuse(surroundings_.callbacks.complaint(400));
    end();
  }

  // --- answering

  void have_it_answered() {
    lowest().expires_never();
    auto work = [self = this->shared_from_this()] {
      auto response = self->admission_.answer(std::move(self->request_));
      asio::post(self->stream_.get_executor(),
                 [self, response = std::move(response)]() mutable { self->write(std::move(response)); });
    };
    if (admission_.runs == Runs::at_once) return write(admission_.answer(std::move(request_)));
    auto* pool = admission_.runs == Runs::in_worker ? surroundings_.workers : surroundings_.slow_workers;
    if (!pool->try_post(std::move(work))) write(surroundings_.callbacks.complaint(503));
  }

  // An answer to a request whose body is left unread: the connection can not go on after it.
  void refuse(HttpResponse response) {
    keep_alive_ = false;
    unread_body_ = true;
    write(std::move(response));
  }

  void write(HttpResponse response) {
    response_ = std::move(response);
    keep_alive_ = keep_alive_ && !surroundings_.stopping;
    head_text_ = response_head(response_, keep_alive_, std::time(nullptr));
    const bool with_body = method_ != "HEAD" && has_body(response_.status) && !response_.stream;
    const auto body = with_body ? response_.content() : std::string_view{};
    body_bytes_ = body.size();
    if (method_ == "HEAD") let_go_of_stream();
    lowest().expires_after(limits().write_time +
                           std::chrono::milliseconds(body.size() / slowest_bytes_per_ms));
    write_bytes(head_text_, body, &Connection::on_written);
  }

  void on_written(Error error) {
    using std::chrono::duration_cast;
    surroundings_.callbacks.log(
        {.method = method_,
         .target = target_,
         .peer = ends_.peer,
         .person = response_.person,
         .status = response_.status,
         .bytes = body_bytes_,
         .took = duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - began_)});
    if (error) return let_go_of_stream();
    if (response_.stream) return run_stream();
    response_ = {};
    admission_ = {};
    if (keep_alive_) return wait_for_request();
    unread_body_ ? drain() : end();
  }

  // Closing a socket with unread bytes makes the other side lose the answer, so a bounded part of them is
  // read.
  void drain() {
    Error ignored;
    if constexpr (!is_tls) lowest().socket().shutdown(asio::ip::tcp::socket::shutdown_send, ignored);
    lowest().expires_after(limits().drain_time);
    drain_more();
  }

  void drain_more() {
    drained_bytes_ += buffer_.size();
    buffer_.clear();
    if (drained_bytes_ > drained_bytes_max) return end();
    read_more(body_read_bytes, &Connection::drain_more);
  }

  // The connection is destroyed, and its socket closed, when the last handler that holds it is gone.
  void end() {
    Error ignored;
    if constexpr (is_tls) {
      if (!lowest().socket().is_open()) return;
      lowest().expires_after(std::chrono::seconds(2));
      stream_.async_shutdown([self = this->shared_from_this()](Error /*unused*/) { self->lowest().close(); });
    } else {
      lowest().socket().shutdown(asio::ip::tcp::socket::shutdown_both, ignored);
    }
  }

  // --- event streams

  void run_stream() {
    lowest().expires_never();
    watch_reader();
    response_.stream->on_news([weak = this->weak_from_this(), executor = stream_.get_executor()] {
      asio::post(executor, [weak] {
        if (const auto self = weak.lock()) self->pump();
      });
    });
    beat_later();
    if (surroundings_.stopping) end_stream();
  }

  // A listener says nothing: when it does, or the read ends, the stream is over.
  void watch_reader() {
    buffer_.clear();
    read_more(512, &Connection::end_stream);
  }

  void pump() {
    if (!response_.stream || writing_) return;
    stream_text_ = response_.stream->take();
    if (stream_text_.empty()) {
      if (response_.stream->closed()) end_stream();
      return;
    }
    writing_ = true;
    lowest().expires_after(limits().stream_write_time);
    write_bytes(stream_text_, {}, &Connection::on_pumped);
  }

  void on_pumped(Error error) {
    writing_ = false;
    error ? end_stream() : pump();
  }

  void beat_later() {
    heartbeat_.expires_after(limits().heartbeat);
    heartbeat_.async_wait([self = this->shared_from_this()](Error error) {
      if (error || !self->response_.stream) return;
      if (!self->response_.stream->still_allowed()) return self->end_stream();
      self->response_.stream->push(":\n\n");
      self->beat_later();
    });
  }

  void let_go_of_stream() {
    if (!response_.stream) return;
    response_.stream->on_news(nullptr);
    response_.stream->close();
    response_.stream.reset();
  }

  void end_stream() {
    if (!response_.stream) return;
    let_go_of_stream();
    heartbeat_.cancel();
    lowest().close();
  }

  static constexpr std::size_t small_body_bytes = std::size_t{64} * 1024;
  static constexpr std::size_t head_read_bytes = std::size_t{4} * 1024;
  static constexpr std::size_t body_read_bytes = std::size_t{64} * 1024;
  static constexpr std::size_t slowest_bytes_per_ms = 32;  // beyond write_time
  static constexpr std::size_t drained_bytes_max =
      std::size_t{16} * 1024 * 1024;  // a photo too large by a little still gets its answer

  std::shared_ptr<void> place_;
  ConnectionSurroundings& surroundings_;
  ConnectionEnds ends_;
  Stream stream_;
  asio::executor_work_guard<typename Stream::executor_type> keeps_running_;  // while a worker has the request
  beast::flat_buffer buffer_;
  std::optional<http::request_parser<http::string_body>> parser_;
  HttpRequest request_;  // handed over to whoever answers it
  std::string method_, target_;
  Admission admission_;
  HttpResponse response_;
  std::string head_text_;
  std::string stream_text_;
  asio::steady_timer heartbeat_;
  std::chrono::steady_clock::time_point began_;
  std::size_t body_bytes_ = 0;     // of the answer on its way
  std::size_t drained_bytes_ = 0;  // read and forgotten
  bool keep_alive_ = true;
  bool unread_body_ = false;
  bool waits_ = true;  // no request has been read yet: nothing is lost by hanging up
  bool writing_ = false;
};

}  // namespace pumpwright::server
