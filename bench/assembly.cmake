# Monte Carlo stack beside NumPy doing the same: see stack_bench.cpp for what is measured on what.
set(PUMPWRIGHT_PYTHON "/usr/bin/python3" CACHE FILEPATH "Python with NumPy and SciPy, for live references in tests")
add_executable(stack_bench stack_bench.cpp)
target_link_libraries(stack_bench PRIVATE pumpwright_assembly Threads::Threads)
target_compile_definitions(stack_bench PRIVATE PUMPWRIGHT_PYTHON="${PUMPWRIGHT_PYTHON}"
  PUMPWRIGHT_STACK_REFERENCE="${CMAKE_CURRENT_SOURCE_DIR}/stack_reference.py")
