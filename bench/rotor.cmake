# Whirl and critical speeds beside scipy.linalg.eig on the same matrices: see rotor_bench.cpp for what is measured.
set(PUMPWRIGHT_PYTHON "/usr/bin/python3" CACHE FILEPATH "Python with NumPy and SciPy, for live references in tests")
add_executable(rotor_bench rotor_bench.cpp)
target_link_libraries(rotor_bench PRIVATE pumpwright_rotor fmt::fmt)
target_compile_definitions(rotor_bench PRIVATE PUMPWRIGHT_PYTHON="${PUMPWRIGHT_PYTHON}"
  PUMPWRIGHT_ROTOR_REFERENCE="${CMAKE_CURRENT_SOURCE_DIR}/rotor_reference.py")
