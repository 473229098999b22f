# Compiles each file with the include roots of its room and nothing else. COMPILER, ROOTS: a file that sets
# roots_<room> for every room; FOLDER: of the arrows.
include(${ROOTS})

# The room is the first word of the file's name.
function(try_arrow name result error)
  string(REGEX REPLACE "_sees_.*" "" room ${name})
  if(NOT roots_${room})
    message(FATAL_ERROR "no include roots of the room ${room}")
  endif()
  list(TRANSFORM roots_${room} PREPEND -I OUTPUT_VARIABLE includes)
  execute_process(COMMAND ${COMPILER} -std=c++20 -fsyntax-only ${includes} ${FOLDER}/${name}.cpp
    RESULT_VARIABLE code ERROR_VARIABLE said)
  set(${result} ${code} PARENT_SCOPE)
  set(${error} "${said}" PARENT_SCOPE)
endfunction()

try_arrow(study_sees_case code said)
if(NOT code EQUAL 0)
  message(FATAL_ERROR "a right arrow does not compile:\n${said}")
endif()
foreach(wrong study_sees_io io_sees_study layout_sees_passage)
  try_arrow(${wrong} code said)
  if(code EQUAL 0)
    message(FATAL_ERROR "a wrong arrow compiles: ${wrong}")
  endif()
  string(REGEX MATCH "_sees_(.*)" ignored ${wrong})
  if(NOT said MATCHES "wingnose/${CMAKE_MATCH_1}/[a-z_]+\\.hpp(: No such file|' file not found)")
    message(FATAL_ERROR "${wrong} fails for another reason than the header it must not see:\n${said}")
  endif()
endforeach()
