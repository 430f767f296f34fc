include(${CMAKE_CURRENT_LIST_DIR}/release.cmake)
set(SUNFLECK_BENCH ON CACHE BOOL "")
