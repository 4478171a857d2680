// The streams of the jobs: takes what is handed in, looks whether it fits, writes it, and judges.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "shop/job_shelf.h"
#include "shop/shop.h"
#include "shop/shop_desk.h"

namespace pumpwright::shop {

class JobDesk {
 public:
  JobDesk(store::Store& store, const Foundations& foundations, ShopDesk& shop);

  std::string open_job(const Hand& hand, const NewJob& wanted);
  Receipt hand_in(const Hand& hand, const std::string& number, std::span<const HandedIn> events);
  Receipt release(const Hand& hand, const std::string& number, const HandedIn& envelope,
                  std::string_view password, const std::string& statement);
  std::shared_ptr<const JobPicture> picture(const std::string& number);
  TriedReading try_reading(const Hand& hand, const std::string& number, const std::string& payload);
  job::Snapshot plan_for_make_up(const std::string& make_up_json) const;
  // Open jobs whose plan has the limit learn that the shop stands behind it.
  void spread_adoption(const Hand& hand, const std::string& limit, const std::string& time);

 private:
  struct Batch;

  void take(const Hand& hand, const HandedIn& event, Batch& batch) const;
  void take_with(const std::optional<HandedIn>& joining, const Hand& hand, const HandedIn& event,
                 Batch& batch) const;
  void add(const Hand& hand, const HandedIn& event, const job::JsonReader& payload, Batch& batch) const;
  void add(const Hand& hand, const HandedIn& event, Batch& batch) const;
  void add_plan_made(const Hand& hand, const HandedIn& event, Batch& batch) const;
  std::optional<HandedIn> joining_of(const HandedIn& event, const job::JsonReader& payload,
                                     const Batch& batch) const;
  bool was_stored(const std::string& number, const HandedIn& event, Receipt& receipt) const;
  void write(Batch& batch, Receipt& receipt);
  std::shared_ptr<const JobPicture> picture_of(ShelvedJob& job) const;

  store::Store& store_;
  const Foundations& foundations_;
  ShopDesk& shop_;
  Catalog catalog_;
  JobShelf shelf_;
};

}  // namespace pumpwright::shop
