# What cmake --install puts where, so that others find the library by find_package(sunfleck).
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

set(SUNFLECK_PACKAGE_DIR ${CMAKE_INSTALL_LIBDIR}/cmake/sunfleck)
set_target_properties(sunfleck_build PROPERTIES EXPORT_NAME build)
set_target_properties(sunfleck_warnings PROPERTIES EXPORT_NAME warnings)
install(TARGETS sunfleck_build sunfleck_warnings EXPORT sunfleck_targets)
install(TARGETS sunfleck)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/include/sunfleck TYPE INCLUDE)
install(DIRECTORY ${CMAKE_BINARY_DIR}/generated/sunfleck TYPE INCLUDE)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/scenes DESTINATION ${CMAKE_INSTALL_DATADIR}/sunfleck)
install(EXPORT sunfleck_targets NAMESPACE sunfleck:: FILE sunfleck-targets.cmake
        DESTINATION ${SUNFLECK_PACKAGE_DIR})

configure_package_config_file(${CMAKE_SOURCE_DIR}/tools/cmake/sunfleck-config.cmake.in
    ${CMAKE_BINARY_DIR}/sunfleck-config.cmake INSTALL_DESTINATION ${SUNFLECK_PACKAGE_DIR})
write_basic_package_version_file(${CMAKE_BINARY_DIR}/sunfleck-config-version.cmake
    COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_BINARY_DIR}/sunfleck-config.cmake
              ${CMAKE_BINARY_DIR}/sunfleck-config-version.cmake
        DESTINATION ${SUNFLECK_PACKAGE_DIR})
