# Monte Carlo stack beside NumPy doing the same: see stack_bench.cpp for what is measured on what.
set(PUMPWRIGHT_PYTHON "/usr/bin/python3" CACHE FILEPATH "Python with NumPy and SciPy, for live references in tests")
add_executable(stack_bench stack_bench.cpp)
target_link_libraries(stack_bench PRIVATE pumpwright_assembly Threads::Threads)
target_compile_definitions(stack_bench PRIVATE PUMPWRIGHT_PYTHON="${PUMPWRIGHT_PYTHON}"
  PUMPWRIGHT_STACK_REFERENCE="${CMAKE_CURRENT_SOURCE_DIR}/stack_reference.py")

# Attribution of runout beside NumPy: see true_running_bench.cpp.
add_executable(true_running_bench true_running_bench.cpp "${CMAKE_SOURCE_DIR}/tests/support/synthetic_rotor.cpp")
target_link_libraries(true_running_bench PRIVATE pumpwright_assembly pumpwright_metrology Eigen3::Eigen)
target_compile_definitions(true_running_bench PRIVATE PUMPWRIGHT_PYTHON="${PUMPWRIGHT_PYTHON}"
  PUMPWRIGHT_TRUE_REFERENCE="${CMAKE_CURRENT_SOURCE_DIR}/true_running_reference.py")
