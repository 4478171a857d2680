#include "bench/load/tablet.h"

#include <stdexcept>
#include <utility>

#include <fmt/format.h>

namespace pumpwright::bench {
namespace {

nlohmann::json ask(Exchange& exchange, Question question) {
  const std::string what = question.method + " " + question.target;
  const auto answer = exchange.ask_now(std::move(question));
  if (answer.status != 200)
    throw std::runtime_error(fmt::format("{}: {} {}", what, answer.status, answer.body.substr(0, 300)));
  return nlohmann::json::parse(answer.body);
}

}  // namespace

Visitor signed_in(boost::asio::io_context& io, const boost::asio::ip::tcp::endpoint& server,
                  const Person& person) {
  Visitor visitor{.server = server, .cookies = {}, .token = {}};
  Exchange exchange(io, visitor);
  visitor.token = ask(exchange, {"GET", "/api/session", ""})["token"];
  const nlohmann::json secret{{"id", person.id}, {"password", person.password}};
  visitor.token = ask(exchange, {"POST", "/api/session", secret.dump()})["token"];
  return visitor;
}

Tablet::Tablet(boost::asio::io_context& io, Visitor visitor, const TabletSetting& setting, Faults& faults)
    : visitor_(std::move(visitor)),
      writer_(std::make_unique<Writer>(io, visitor_, setting.writer, faults)),
      viewer_(std::make_unique<JobViewer>(io, visitor_, setting.writer.job, faults)) {
  Listener::Setting hears{
      .device = setting.writer.device, .job = setting.writer.job, .after = setting.after, .on_change = {}};
  if (setting.views) hears.on_change = [this] { viewer_->on_change(); };
  listener_ = std::make_unique<Listener>(io, visitor_, std::move(hears), faults);
}

void Tablet::close() {
  listener_->close();
  viewer_->close();
}

}  // namespace pumpwright::bench
