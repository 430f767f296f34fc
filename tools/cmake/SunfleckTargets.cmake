# Settings every target shares, and the one way to add a module, a test or a tool.

add_library(sunfleck_build INTERFACE)
target_compile_features(sunfleck_build INTERFACE cxx_std_20)
target_compile_options(sunfleck_build INTERFACE
    -ffp-contract=off
    $<BUILD_INTERFACE:-ffile-prefix-map=${CMAKE_SOURCE_DIR}/=>)
# A program loads only the shared libraries of the modules that it uses.
target_link_options(sunfleck_build INTERFACE LINKER:--as-needed)
set(CMAKE_CXX_EXTENSIONS OFF)
if(SUNFLECK_SANITIZE)
    target_compile_options(sunfleck_build INTERFACE
        -fsanitize=${SUNFLECK_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
    target_link_options(sunfleck_build INTERFACE -fsanitize=${SUNFLECK_SANITIZE})
    target_compile_definitions(sunfleck_build INTERFACE _GLIBCXX_ASSERTIONS)
endif()

add_library(sunfleck_warnings INTERFACE)
target_compile_options(sunfleck_warnings INTERFACE
    -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wdouble-promotion
    -Wold-style-cast -Wnon-virtual-dtor -Woverloaded-virtual -Wcast-align -Wformat=2
    -Wimplicit-fallthrough -Wextra-semi -Wundef -Wfloat-equal -Wswitch-enum
    # Designated initialisers name what differs; every other field is value-initialised.
    -Wno-missing-field-initializers)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    target_compile_options(sunfleck_warnings INTERFACE
        -Wduplicated-cond -Wduplicated-branches -Wlogical-op -Wsuggest-override)
    if(NOT SUNFLECK_SANITIZE)
        # Misfires inside std::string once it is inlined (GCC bug 105651); on with sanitizers.
        target_compile_options(sunfleck_warnings INTERFACE -Wno-restrict)
    else()
        # These fire from inside library headers once the sanitizers have changed inlining.
        target_compile_options(sunfleck_warnings INTERFACE
            -Wno-maybe-uninitialized -Wno-stringop-truncation)
    endif()
endif()
if(SUNFLECK_WERROR)
    target_compile_options(sunfleck_warnings INTERFACE -Werror)
endif()

# The module among those that other programs find as sunfleck::<name>; see SunfleckInstall.cmake.
function(sunfleck_export name)
    set_target_properties(sunfleck_${name} PROPERTIES EXPORT_NAME ${name})
    install(TARGETS sunfleck_${name} EXPORT sunfleck_targets)
endfunction()

# The tests' own units: with sanitizers a third of their compile time goes into optimising checks
# that run once. What they test keeps its profile's flags.
add_library(sunfleck_test_build INTERFACE)
if(SUNFLECK_SANITIZE)
    target_compile_options(sunfleck_test_build INTERFACE -O0)
endif()

# sunfleck_module(<name> SOURCES a.cpp ... [USES base sun ...] [PRIVATE_LIBS lib ...])
# The module <name> as target sunfleck_<name>, alias sunfleck::<name>.
function(sunfleck_module name)
    cmake_parse_arguments(arg "" "" "SOURCES;USES;PRIVATE_LIBS" ${ARGN})
    list(TRANSFORM arg_USES PREPEND sunfleck::)
    if(NOT arg_SOURCES)
        add_library(sunfleck_${name} INTERFACE)
        add_library(sunfleck::${name} ALIAS sunfleck_${name})
        target_include_directories(sunfleck_${name}
            INTERFACE $<BUILD_INTERFACE:${CMAKE_SOURCE_DIR}/include> $<INSTALL_INTERFACE:include>)
        target_link_libraries(sunfleck_${name} INTERFACE ${arg_USES} sunfleck_build)
        sunfleck_export(${name})
        return()
    endif()
    add_library(sunfleck_${name} STATIC ${arg_SOURCES})
    add_library(sunfleck::${name} ALIAS sunfleck_${name})
    target_include_directories(sunfleck_${name}
        PUBLIC $<BUILD_INTERFACE:${CMAKE_SOURCE_DIR}/include>
               $<BUILD_INTERFACE:${CMAKE_BINARY_DIR}/generated> $<INSTALL_INTERFACE:include>
        PRIVATE ${CMAKE_SOURCE_DIR}/src)
    target_link_libraries(sunfleck_${name}
        PUBLIC ${arg_USES} sunfleck_build
        PRIVATE sunfleck_warnings ${arg_PRIVATE_LIBS})
    sunfleck_export(${name})
endfunction()

# sunfleck_tests(<module> SOURCES a_test.cpp ... [LIBS lib ...])
# One test program per module; a case that checks nothing fails.
function(sunfleck_tests module)
    cmake_parse_arguments(arg "" "" "SOURCES;LIBS" ${ARGN})
    add_executable(${module}_tests ${arg_SOURCES})
    target_include_directories(${module}_tests
        PRIVATE ${CMAKE_SOURCE_DIR}/src ${CMAKE_SOURCE_DIR}/tests ${CMAKE_BINARY_DIR}/generated)
    target_compile_definitions(${module}_tests PRIVATE
        SUNFLECK_TEST_DATA="${CMAKE_SOURCE_DIR}/tests/data"
        SUNFLECK_SCENES="${CMAKE_SOURCE_DIR}/scenes")
    target_link_libraries(${module}_tests
        PRIVATE sunfleck::${module} sunfleck_warnings sunfleck_test_build Catch2::Catch2WithMain
                ${arg_LIBS})
    catch_discover_tests(${module}_tests TEST_PREFIX "${module}: " EXTRA_ARGS -w NoAssertions
        PROPERTIES TIMEOUT 600)
endfunction()
