# Weibull fit beside R's survreg on the same numbers: see weibull_bench.cpp for what is measured on what.
set(PUMPWRIGHT_R "/usr/bin/Rscript" CACHE FILEPATH "R with its survival package, for live references in tests")
add_executable(weibull_bench weibull_bench.cpp)
target_link_libraries(weibull_bench PRIVATE pumpwright_reliability)
target_compile_definitions(weibull_bench PRIVATE PUMPWRIGHT_R="${PUMPWRIGHT_R}"
  PUMPWRIGHT_WEIBULL_REFERENCE="${CMAKE_CURRENT_SOURCE_DIR}/weibull_reference.R")
