# Fails when a header brings more preprocessed lines than tests/include_budget.txt allows it.
#   cmake -DCOMPILE=<compiler and flags> -DHEADERS=<names> -DWORK=<folder> -DBUDGET=<file>
#         -P check_include_budget.cmake
# Lines are those of `-E`, without the line markers. They are what a program that includes the
# header must read, and the same every time; what they cost in time is in docs/include-cost.md.

# The budget is for one standard library: another's headers have other lengths.
file(WRITE ${WORK}/release.cpp "#include <cstddef>\n")
execute_process(COMMAND ${COMPILE} -dM -E ${WORK}/release.cpp OUTPUT_VARIABLE macros
                COMMAND_ERROR_IS_FATAL ANY)
if(NOT macros MATCHES "_GLIBCXX_RELEASE 12\n")
  message(STATUS "the budget is for libstdc++ 12, which is not here: nothing is checked")
  return()
endif()

file(STRINGS ${BUDGET} rows REGEX "^[a-z_]+ +[0-9]+$")
foreach(row IN LISTS rows)
  string(REGEX MATCH "^([a-z_]+) +([0-9]+)$" row "${row}")
  set(allowed_${CMAKE_MATCH_1} ${CMAKE_MATCH_2})
endforeach()

set(complaints "")
foreach(name IN LISTS HEADERS)
  file(WRITE ${WORK}/${name}.cpp "#include \"barwright/${name}.hpp\"\n")
  execute_process(COMMAND ${COMPILE} -E ${WORK}/${name}.cpp OUTPUT_VARIABLE text
                  COMMAND_ERROR_IS_FATAL ANY)
  string(REGEX REPLACE "\n#[^\n]*" "\n" text "${text}")
  string(REGEX REPLACE "\n\n+" "\n" text "${text}")
  string(REPLACE "\n" "" without_ends "${text}")
  string(LENGTH "${text}" length)
  string(LENGTH "${without_ends}" length_without_ends)
  math(EXPR lines "${length} - ${length_without_ends}")
  message(STATUS "${name}: ${lines} of ${allowed_${name}}")
  if(NOT DEFINED allowed_${name})
    math(EXPR proposed "${lines} / 1000 * 1000 + 2000")
    string(APPEND complaints "${name} has no budget; it brings ${lines} lines: add \"${name} ${proposed}\"\n")
  elseif(lines GREATER allowed_${name})
    string(APPEND complaints "${name} brings ${lines} lines, ${allowed_${name}} are allowed\n")
  endif()
endforeach()
if(complaints OR NOT HEADERS)
  message(FATAL_ERROR "${complaints}"
          "Every program that includes such a header reads them all. Can it do with fewer includes?\n"
          "g++ -std=c++20 -Iinclude -fsyntax-only -H shows who brings what. If it is meant, raise\n"
          "the figure in tests/include_budget.txt and say why in the commit.")
endif()
