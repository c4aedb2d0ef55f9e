# The program must print the library's message to stderr and abort.
#   PROGRAM is set to the program
execute_process(COMMAND ${PROGRAM} OUTPUT_VARIABLE output ERROR_VARIABLE errors
                RESULT_VARIABLE result)
if(NOT result MATCHES "[Aa]bort")
  message(FATAL_ERROR "expected an abort; got: ${result}\n${output}${errors}")
endif()
if(NOT output STREQUAL "valid values work\n")
  message(FATAL_ERROR "expected the line \"valid values work\"; got:\n${output}")
endif()
if(NOT errors STREQUAL
   "barwright: a load must be a number of kilograms from 0 to 1000000; got -20\n")
  message(FATAL_ERROR "expected the message about a load of -20 kg; got:\n${errors}")
endif()
