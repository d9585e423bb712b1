# A room of colorlib is one static library of its own: colorlib_<name>, called colorlib::<name>.
#   colorlib_room(chart SOURCES a.cpp ROOMS base image LIBRARIES PkgConfig::LCMS)
# ROOMS are the rooms whose headers this one may include; LIBRARIES stay private to its .cpp files.
set(header_only_libraries Boost::headers Eigen3::Eigen nlohmann_json::nlohmann_json)
function(colorlib_room name)
  cmake_parse_arguments(ROOM "" "" "SOURCES;ROOMS;LIBRARIES" ${ARGN})
  set(target colorlib_${name})
  add_library(${target} STATIC ${ROOM_SOURCES})
  add_library(colorlib::${name} ALIAS ${target})
  set_target_properties(${target} PROPERTIES EXPORT_NAME ${name})
  target_compile_features(${target} PUBLIC cxx_std_20)
  target_include_directories(${target} PUBLIC $<BUILD_INTERFACE:${CMAKE_SOURCE_DIR}>
                                              $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>)
  foreach(room ${ROOM_ROOMS})
    target_link_libraries(${target} PUBLIC colorlib_${room})
  endforeach()
  foreach(library ${ROOM_LIBRARIES})
    if(library IN_LIST header_only_libraries)
      # Used while building only: whoever links the installed room does not need it.
      target_link_libraries(${target} PRIVATE $<BUILD_INTERFACE:${library}>)
    else()
      target_link_libraries(${target} PRIVATE ${library})
    endif()
  endforeach()
  set_property(GLOBAL APPEND PROPERTY COLORLIB_ROOMS ${target})
endfunction()

# The tests of one room: every NAME_test.cpp beside the calling list file.
function(colorlib_room_tests name)
  cmake_parse_arguments(ROOM "" "" "LIBRARIES" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*_test.cpp)
  set(target ${name}_tests)
  add_executable(${target} ${sources})
  target_link_libraries(${target} PRIVATE colorlib::${name} tests_support GTest::gtest_main GTest::gmock fmt::fmt
                                          ${ROOM_LIBRARIES})
  add_test(NAME ${name} COMMAND ${target})
  set_tests_properties(${name} PROPERTIES TIMEOUT 600)
endfunction()
