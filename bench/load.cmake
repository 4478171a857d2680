add_executable(load_tablets
  load_tablets.cpp plain_sqlite.cpp load/exchange.cpp load/job_viewer.cpp load/listener.cpp load/load_run.cpp
  load/machine.cpp load/shop_process.cpp load/store_check.cpp load/tablet.cpp load/writer.cpp)
target_link_libraries(load_tablets PRIVATE
  pumpwright_store PkgConfig::sqlite Boost::headers CLI11::CLI11 nlohmann_json::nlohmann_json fmt::fmt Threads::Threads)
