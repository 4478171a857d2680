add_executable(fluid_bench fluid_bench.cpp)
target_link_libraries(fluid_bench PRIVATE pumpwright_fluid benchmark::benchmark)
