# Memory of a shop of 200,000 jobs: see history_bench.cpp for what is measured on what.
add_executable(history_bench history_bench.cpp)
target_link_libraries(history_bench PRIVATE pumpwright_shop pumpwright_server nlohmann_json::nlohmann_json fmt::fmt Threads::Threads)
target_compile_definitions(history_bench PRIVATE PUMPWRIGHT_SOURCE_DIR="${CMAKE_SOURCE_DIR}")
