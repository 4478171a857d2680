# Acceptance with drawn uncertainty beside NumPy doing the same: see acceptance_bench.cpp for what is measured on what.
set(PUMPWRIGHT_PYTHON "/usr/bin/python3" CACHE FILEPATH "Python with NumPy and SciPy, for live references in tests")
add_executable(acceptance_bench acceptance_bench.cpp)
target_link_libraries(acceptance_bench PRIVATE pumpwright_hydraulics Threads::Threads)
target_compile_definitions(acceptance_bench PRIVATE PUMPWRIGHT_PYTHON="${PUMPWRIGHT_PYTHON}"
  PUMPWRIGHT_ACCEPTANCE_REFERENCE="${CMAKE_CURRENT_SOURCE_DIR}/acceptance_reference.py")
