# Install and export: find_package(wingnose) gives wingnose::wingnose (everything) and wingnose::<room>.
include(CMakePackageConfigHelpers)
get_property(rooms GLOBAL PROPERTY WINGNOSE_ROOMS)

set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/wingnose)
install(TARGETS ${rooms} wingnose_flags wingnose_all EXPORT wingnose ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
install(EXPORT wingnose NAMESPACE wingnose:: FILE wingnose-targets.cmake DESTINATION ${package_dir})
install(DIRECTORY ${PROJECT_SOURCE_DIR}/include/wingnose ${WINGNOSE_GENERATED_DIR}/wingnose
        DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} FILES_MATCHING PATTERN "*.hpp")
install(DIRECTORY ${PROJECT_SOURCE_DIR}/profiles DESTINATION ${CMAKE_INSTALL_DATADIR}/wingnose)
# For building the libraries and nothing else.
add_custom_target(wingnose_rooms DEPENDS ${rooms})
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR})
if(TARGET wingnose)
  install(TARGETS wingnose RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
endif()

configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/wingnose-config.cmake.in
  ${PROJECT_BINARY_DIR}/wingnose-config.cmake INSTALL_DESTINATION ${package_dir})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/wingnose-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/wingnose-config.cmake ${PROJECT_BINARY_DIR}/wingnose-config-version.cmake
        DESTINATION ${package_dir})
