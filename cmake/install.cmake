# What `cmake --install` lays down: the library with its headers as the CMake package `colorlib`, the charts and tables that
# it reads, the licence. Programs install themselves where they are built.
include(CMakePackageConfigHelpers)

get_property(rooms GLOBAL PROPERTY COLORLIB_ROOMS)
install(TARGETS colorlib ${rooms} EXPORT colorlib
        ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
install(DIRECTORY colorlib DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}
        FILES_MATCHING PATTERN "*.hpp" PATTERN "*_internal.hpp" EXCLUDE PATTERN "video" EXCLUDE)

set(package_folder ${CMAKE_INSTALL_LIBDIR}/cmake/colorlib)
install(EXPORT colorlib NAMESPACE colorlib:: FILE colorlibTargets.cmake DESTINATION ${package_folder})
configure_package_config_file(cmake/colorlibConfig.cmake.in ${CMAKE_BINARY_DIR}/colorlibConfig.cmake
                              INSTALL_DESTINATION ${package_folder} NO_SET_AND_CHECK_MACRO)
write_basic_package_version_file(${CMAKE_BINARY_DIR}/colorlibConfigVersion.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_BINARY_DIR}/colorlibConfig.cmake ${CMAKE_BINARY_DIR}/colorlibConfigVersion.cmake
        DESTINATION ${package_folder})

install(DIRECTORY charts reference DESTINATION ${CMAKE_INSTALL_DATADIR}/tintfall)
install(FILES LICENSE docs/licences.md DESTINATION ${CMAKE_INSTALL_DOCDIR})
