add_executable(seal_bench seal_bench.cpp)
target_link_libraries(seal_bench PRIVATE pumpwright_seal benchmark::benchmark Threads::Threads)
