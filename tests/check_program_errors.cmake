# Every message of the example programs in docs/errors.md is got by the command below it, and every
# message in their source is there.
#
#   ROOT      the top of the repository
#   PROGRAMS  the folder of the example programs
file(STRINGS ${ROOT}/docs/errors.md lines ENCODING UTF-8)
set(ENV{PROGRAMS} ${PROGRAMS})
set(ENV{PATH} "${PROGRAMS}:$ENV{PATH}")

set(failures 0)
set(messages "")
set(message "")
foreach(line IN LISTS lines)
  if(line MATCHES "^- `(.+)`$")
    set(message "${CMAKE_MATCH_1}")
    string(APPEND messages "${message}\n")
  elseif(message AND line MATCHES "^  `(.+)`$")
    set(command "${CMAKE_MATCH_1}")
    string(MD5 key "${command}")
    if(NOT DEFINED output_${key})
      execute_process(COMMAND sh -c "${command}" WORKING_DIRECTORY ${ROOT} OUTPUT_QUIET
                      ERROR_VARIABLE output_${key})
    endif()
    # The message as a regular expression, with anything for each "...".
    string(REGEX REPLACE "([][+.*()^$?|])" "\\\\\\1" pattern "${message}")
    string(REPLACE "\\.\\.\\." ".*" pattern "${pattern}")
    if(NOT output_${key} MATCHES "${pattern}")
      math(EXPR failures "${failures} + 1")
      message("not got: ${message}\n  by: ${command}\n  but: ${output_${key}}")
    endif()
    set(message "")
  endif()
endforeach()

# The first words of every message in the source. A word in quotation marks stands for itself.
file(GLOB_RECURSE sources ${ROOT}/examples/*.hpp ${ROOT}/examples/*.cpp
     ${ROOT}/include/barwright/log/*.hpp)
list(FILTER sources EXCLUDE REGEX "/embed/")
set(number 0)
foreach(source IN LISTS sources)
  file(READ ${source} code)
  string(REPLACE "\\\"" "'" code "${code}")
  string(REPLACE "\\n" "" code "${code}")
  string(REPLACE ";" "," code "${code}")  # else CMake parts lists there
  string(REPLACE "'" "" plain_messages "${messages}")
  string(REPLACE "\"" "" plain_messages "${plain_messages}")
  string(REPLACE ";" "," plain_messages "${plain_messages}")
  string(REGEX MATCHALL
         "(Refusal{|refuse\\([^\";]*|doubt\\([^\";]*|problem \\+?=|failure =|number_from<[a-z]+>[^,\"]*,)[ \n]*\"[^\"]*\""
         found "${code}")
  foreach(each IN LISTS found)
    string(REGEX REPLACE "^[^\"]*\"([^\"]*)\"$" "\\1" words "${each}")
    string(REPLACE "'" "" words "${words}")
    string(REGEX REPLACE "^[. ]+" "" words "${words}")
    string(STRIP "${words}" words)
    string(LENGTH "${words}" length)
    if(length LESS 8)
      continue()
    endif()
    math(EXPR number "${number} + 1")
    string(FIND "${plain_messages}" "${words}" place)
    if(place EQUAL -1)
      math(EXPR failures "${failures} + 1")
      message("not in docs/errors.md: ${words}\n  of ${source}")
    endif()
  endforeach()
endforeach()
if(number LESS 50)
  message(FATAL_ERROR "only ${number} messages were found in the source")
endif()
if(failures GREATER 0)
  message(FATAL_ERROR "${failures} failures")
endif()
