# A long recording's spectrum beside scipy.signal.welch: see vibration_bench.cpp for what is measured.
set(PUMPWRIGHT_PYTHON "/usr/bin/python3" CACHE FILEPATH "Python with NumPy and SciPy, for live references in tests")
add_executable(vibration_bench vibration_bench.cpp)
target_link_libraries(vibration_bench PRIVATE pumpwright_vibration fmt::fmt Threads::Threads)
target_compile_definitions(vibration_bench PRIVATE PUMPWRIGHT_PYTHON="${PUMPWRIGHT_PYTHON}"
  PUMPWRIGHT_VIBRATION_REFERENCE="${CMAKE_CURRENT_SOURCE_DIR}/vibration_reference.py")
