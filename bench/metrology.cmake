add_executable(sweep_fit_bench sweep_fit_bench.cpp)
target_link_libraries(sweep_fit_bench PRIVATE pumpwright_metrology Eigen3::Eigen benchmark::benchmark)
