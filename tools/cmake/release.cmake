set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELEASE "-O3" CACHE STRING "")
set(SUNFLECK_TESTS OFF CACHE BOOL "")
# A user's build must not stop at a warning that another compiler invents; dev and asan do.
set(SUNFLECK_WERROR OFF CACHE BOOL "")
