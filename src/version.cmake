# Writes wingnose/version.hpp into the build tree: once while configuring, and again at every build (only when it
# changed), because a commit that is out of date in a result file is worse than none.
if(NOT CMAKE_SCRIPT_MODE_FILE)
  set(WINGNOSE_GENERATED_DIR ${PROJECT_BINARY_DIR}/generated)
  set(version_arguments -DSOURCE=${PROJECT_SOURCE_DIR} -DPROJECT_VERSION=${PROJECT_VERSION}
      -DTARGET=${WINGNOSE_GENERATED_DIR}/wingnose/version.hpp -P ${CMAKE_CURRENT_LIST_FILE})
  execute_process(COMMAND ${CMAKE_COMMAND} ${version_arguments} COMMAND_ERROR_IS_FATAL ANY)
  add_custom_target(wingnose_version COMMAND ${CMAKE_COMMAND} ${version_arguments}
    BYPRODUCTS ${WINGNOSE_GENERATED_DIR}/wingnose/version.hpp COMMENT "" VERBATIM)
  return()
endif()

# Only a repository whose top is this very source tree counts: an unpacked archive inside another repository must not
# take that one's commit for its own.
set(WINGNOSE_COMMIT unknown)
find_program(GIT git)
if(GIT)
  execute_process(COMMAND ${GIT} -C ${SOURCE} rev-parse --show-toplevel --short=12 HEAD
    RESULT_VARIABLE failed OUTPUT_VARIABLE answer ERROR_QUIET OUTPUT_STRIP_TRAILING_WHITESPACE)
  string(REPLACE "\n" ";" answer "${answer}")
  if(NOT failed)
    list(GET answer 0 top)
    file(REAL_PATH ${SOURCE} here)
    if(top STREQUAL here)
      list(GET answer 1 WINGNOSE_COMMIT)
      execute_process(COMMAND ${GIT} -C ${SOURCE} diff-index --quiet HEAD -- src include bindings
        RESULT_VARIABLE changed OUTPUT_QUIET ERROR_QUIET)
      if(changed)
        string(APPEND WINGNOSE_COMMIT "+")
      endif()
    endif()
  endif()
endif()
configure_file(${SOURCE}/src/version.hpp.in ${TARGET} @ONLY)
