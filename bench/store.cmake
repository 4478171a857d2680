add_executable(store_bench store_bench.cpp plain_sqlite.cpp)
target_link_libraries(store_bench PRIVATE pumpwright_store PkgConfig::sqlite fmt::fmt Threads::Threads)
