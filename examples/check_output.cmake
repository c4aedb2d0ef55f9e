# Runs an example and compares what it prints with a committed file, character by character.
#   cmake -DPROGRAM=<file> -DEXPECTED=<path without ending> -DGOT=<path without ending> -P ...
set(arguments "")
if(EXISTS ${EXPECTED}.args)
  file(STRINGS ${EXPECTED}.args arguments)
endif()
set(expected_status 0)
if(EXISTS ${EXPECTED}.status)
  file(STRINGS ${EXPECTED}.status expected_status)
endif()

execute_process(COMMAND ${PROGRAM} ${arguments} OUTPUT_FILE ${GOT}.txt ERROR_FILE ${GOT}.stderr
                RESULT_VARIABLE status)

set(failure "")
if(NOT status STREQUAL expected_status)
  string(APPEND failure "exit status ${status}, expected ${expected_status}\n")
endif()
foreach(ending txt stderr)
  if(EXISTS ${EXPECTED}.${ending})
    file(READ ${EXPECTED}.${ending} expected HEX)
    file(READ ${GOT}.${ending} got HEX)
    if(NOT got STREQUAL expected)
      execute_process(COMMAND diff -u ${EXPECTED}.${ending} ${GOT}.${ending}
                      OUTPUT_VARIABLE difference)
      string(APPEND failure "${GOT}.${ending} differs from ${EXPECTED}.${ending}\n${difference}")
    endif()
  endif()
endforeach()
if(failure)
  file(READ ${GOT}.stderr errors)
  message(NOTICE "${failure}stderr: ${errors}")  # a fatal error would wrap the lines
  message(FATAL_ERROR "${EXPECTED}: not what the program does")
endif()
