// One kept connection of a tablet, which asks one thing after another. All tablets share one thread, so that
// the load leaves the machine's cores to the server.
#pragma once

#include <functional>
#include <map>
#include <string>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http/message.hpp>
#include <boost/beast/http/string_body.hpp>

namespace pumpwright::bench {

// Who asks: what a browser keeps of a server.
struct Visitor {
  boost::asio::ip::tcp::endpoint server;
  std::map<std::string, std::string> cookies;
  std::string token;  // sent with everything that changes something

  std::string host() const;
  std::string cookie_header() const;
};

struct Question {
  std::string method, target;
  std::string body;  // JSON; empty: none
};

struct Answer {
  int status = 0;  // 0: the connection failed, and `body` says how
  std::string body;
};

class Exchange {
 public:
  using Answered = std::function<void(const Answer&)>;

  // `visitor` is referred to; cookies of answers go into it.
  Exchange(boost::asio::io_context& io, Visitor& visitor);

  // Connects when it is not connected. One question at a time. A connection that fails is not tried again:
  // on loopback that is a fault of the server.
  void ask(Question question, Answered answered);
  // The same, and runs the context until the answer is there.
  Answer ask_now(Question question);
  void close();

 private:
  void connect();
  void write();
  void read();
  void done(const boost::system::error_code& error);
  void keep_cookies();

  boost::asio::io_context& io_;
  Visitor& visitor_;
  boost::asio::ip::tcp::socket socket_;
  boost::beast::flat_buffer buffer_;
  boost::beast::http::request<boost::beast::http::string_body> request_;
  boost::beast::http::response<boost::beast::http::string_body> response_;
  Answered answered_;
};

}  // namespace pumpwright::bench
