# Every message of the example programs in docs/errors.md is got by the command below it, and one
# that says that there is no answer comes with an exit status that says so, too.
#
#   ROOT      the top of the repository
#   PROGRAMS  the folder of the example programs
file(STRINGS ${ROOT}/docs/errors.md lines ENCODING UTF-8)
set(ENV{PROGRAMS} ${PROGRAMS})
set(ENV{PATH} "${PROGRAMS}:$ENV{PATH}")

set(failures 0)
set(number 0)
set(message "")
foreach(line IN LISTS lines)
  if(line MATCHES "^- `(.+)`$")
    set(message "${CMAKE_MATCH_1}")
  elseif(message AND line MATCHES "^  `(.+)`$")
    set(command "${CMAKE_MATCH_1}")
    math(EXPR number "${number} + 1")
    string(MD5 key "${command}")
    if(NOT DEFINED output_${key})
      execute_process(COMMAND sh -c "${command}" WORKING_DIRECTORY ${ROOT} OUTPUT_QUIET
                      ERROR_VARIABLE output_${key} RESULT_VARIABLE status)
      if(NOT status MATCHES "^[0-3]$" OR (status EQUAL 0 AND output_${key} MATCHES "(^|\n)[a-z_]+: "))
        math(EXPR failures "${failures} + 1")
        message("exit status ${status}\n  by: ${command}\n  with: ${output_${key}}")
      endif()
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

if(number LESS 90)  # a page that was not understood would pass for ever
  message(FATAL_ERROR "only ${number} messages were found in docs/errors.md")
endif()
if(failures GREATER 0)
  message(FATAL_ERROR "${failures} failures")
endif()
