# What keeps compiling short: see "Minutes" in DEVELOPERS.md for what each of these was measured to pay.
#
# Precompiled headers, one per kind of target, hold the standard library and other people's headers that most files of
# that kind parse, and no header of ours: a room still sees only what it links to, and a changed header of ours compiles
# only what includes it. Every file includes what it uses all the same; the tidy preset, which does without precompiled
# headers, tells of one that does not. CMAKE_DISABLE_PRECOMPILE_HEADERS=ON does without them everywhere.
set(WINGNOSE_PRECOMPILED
  <algorithm> <array> <cmath> <complex> <filesystem> <functional> <limits> <map> <memory> <numbers> <optional> <span> <sstream>
  <string> <string_view> <utility> <variant> <vector>)
# A target that owns a precompiled header needs a source compiled with it.
set(WINGNOSE_EMPTY_SOURCE ${PROJECT_BINARY_DIR}/precompiled.cpp)
file(CONFIGURE OUTPUT ${WINGNOSE_EMPTY_SOURCE} CONTENT "")

# wingnose_precompile(TARGET header...): those and some more, for this target.
function(wingnose_precompile target)
  target_precompile_headers(${target} PRIVATE ${WINGNOSE_PRECOMPILED} ${ARGN})
  wingnose_precompiled_flags(${target})
endfunction()

# wingnose_precompile_like(TARGET OWNER): those of a target that is compiled with the same flags.
function(wingnose_precompile_like target owner)
  target_precompile_headers(${target} REUSE_FROM ${owner})
  wingnose_precompiled_flags(${target})
endfunction()

# So that ccache can look into files compiled with a precompiled header.
function(wingnose_precompiled_flags target)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND NOT CMAKE_DISABLE_PRECOMPILE_HEADERS)
    target_compile_options(${target} PRIVATE -fpch-preprocess)
  endif()
endfunction()
if(CMAKE_CXX_COMPILER_LAUNCHER MATCHES "ccache$" AND NOT CMAKE_DISABLE_PRECOMPILE_HEADERS)
  set(CMAKE_CXX_COMPILER_LAUNCHER
    ${CMAKE_COMMAND} -E env CCACHE_SLOPPINESS=pch_defines,time_macros ${CMAKE_CXX_COMPILER_LAUNCHER})
endif()

# For what is compiled often and run little: words and files, bindings, tests. The kernels are not.
set(WINGNOSE_SLACK_FLAGS "$<$<CONFIG:Release>:-Og>" CACHE STRING "Options of rooms of words, bindings and tests, after all others")

# GCC collects its garbage after every 128 MB, a tenth of its time; templates of Eigen and pybind11 need more anyway.
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  add_compile_options($<$<COMPILE_LANGUAGE:CXX>:--param=ggc-min-heapsize=400000>)
endif()

# Where most of the time is Eigen's templates and little of it the optimiser's, the files of a folder are compiled as one.
# Names that only a file knows are therefore unique in their folder, but for those of keys, whose lenses are named alike.
option(WINGNOSE_FOLDERS_AT_ONCE "Compile the files of each folder of a room as one" OFF)
function(wingnose_folders_at_once target)
  set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_MODE GROUP)
  foreach(source ${ARGN})
    get_source_file_property(own ${source} COMPILE_OPTIONS)
    if(NOT own AND NOT source MATCHES "/keys_[a-z]+\\.cpp$")
      cmake_path(GET source PARENT_PATH folder)
      string(MAKE_C_IDENTIFIER ${folder} folder)
      set_source_files_properties(${source} PROPERTIES UNITY_GROUP ${folder})
    endif()
  endforeach()
endfunction()
