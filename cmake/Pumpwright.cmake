# What every target of the project has in common: language level, warnings as errors, sanitizers, include root.

find_program(CCACHE ccache)
if(CCACHE)
  set(CMAKE_CXX_COMPILER_LAUNCHER "${CCACHE}")
endif()

add_library(pumpwright_options INTERFACE)
target_compile_features(pumpwright_options INTERFACE cxx_std_20)
target_include_directories(pumpwright_options INTERFACE "${CMAKE_SOURCE_DIR}" "${CMAKE_BINARY_DIR}/generated")
target_compile_options(pumpwright_options INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wold-style-cast -Wnon-virtual-dtor
  -Woverloaded-virtual -Wdouble-promotion -Werror
  # g++ 12, when it optimises, sees null pointers in the standard library's streams and in Asio that are not there.
  $<$<CXX_COMPILER_ID:Clang>:-Wnull-dereference>
  # The same of an overlap in "literal" + std::string (GCC bug 105651).
  $<$<AND:$<CONFIG:Release>,$<CXX_COMPILER_ID:GNU>>:-Wno-restrict>)
set(CMAKE_CXX_EXTENSIONS OFF)
if(PUMPWRIGHT_SANITIZE)
  # -O1 keeps what computes quick under the sanitizers. Not optimised is what mostly waits or runs once (PUMPWRIGHT_UNOPTIMISED:
  # server, command line, record, a unit test's own code): there the compiler's time is the longer one.
  # Line tables are all a report needs.
  set(sanitizers address,undefined)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
    # The same objects carry the counters that the fuzz targets steer by.
    set(sanitizers ${sanitizers},fuzzer-no-link)
    target_compile_options(pumpwright_options INTERFACE -gline-tables-only)
  else()
    # g++ 12's flow-based warnings misfire under instrumentation.
    target_compile_options(pumpwright_options INTERFACE -Wno-maybe-uninitialized)
  endif()
  target_compile_options(pumpwright_options INTERFACE
    -O$<IF:$<BOOL:$<TARGET_PROPERTY:PUMPWRIGHT_UNOPTIMISED>>,0,1> -fsanitize=${sanitizers} -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(pumpwright_options INTERFACE -fsanitize=${sanitizers})
endif()

# pumpwright_library(NAME SOURCES ... LINK ...): one folder, one static library.
function(pumpwright_library name)
  cmake_parse_arguments(ARG "" "" "SOURCES;LINK" ${ARGN})
  add_library(${name} STATIC ${ARG_SOURCES})
  target_link_libraries(${name} PUBLIC pumpwright_options ${ARG_LINK})
endfunction()

# pumpwright_test(KIND_NAME SOURCES ... LINK ...): one GoogleTest executable, one CTest entry per test case, labelled with
# its kind (unit, property, reference, e2e).
include(GoogleTest)
function(pumpwright_test name)
  cmake_parse_arguments(ARG "" "" "SOURCES;LINK" ${ARGN})
  add_executable(${name} ${ARG_SOURCES})
  target_link_libraries(${name} PRIVATE pumpwright_test_support GTest::gtest_main ${ARG_LINK})
  string(REGEX REPLACE "_.*" "" kind "${name}")
  if(kind STREQUAL "unit")
    set_target_properties(${name} PROPERTIES PUMPWRIGHT_UNOPTIMISED ON)
  endif()
  gtest_discover_tests(${name} DISCOVERY_TIMEOUT 120 PROPERTIES TIMEOUT 600 LABELS "${kind}"
    # One seed for all properties, so that a red run is red again; leave it out to look further.
    ENVIRONMENT "RC_PARAMS=seed=20261125")
endfunction()
