# Fails unless the library's estimates compile to the instructions of the formula written by hand.
#   cmake -DCOMPILE=<compiler and flags> -DSOURCE=<check_same_instructions.cpp>
#         -P check_same_instructions.cmake
# Compared are the instructions from a function's entry to its return, which is all that runs when
# nothing is refused. Registers, addresses and the order of instructions are the compiler's choice.
execute_process(COMMAND ${COMPILE} -O2 -S -o - ${SOURCE} OUTPUT_VARIABLE assembly
                COMMAND_ERROR_IS_FATAL ANY)

function(instructions_of name out)
  if(NOT assembly MATCHES "\n[A-Za-z0-9_]*${name}[A-Za-z0-9_]*:")
    message(FATAL_ERROR "no function ${name} in the assembly")
  endif()
  string(FIND "${assembly}" "${CMAKE_MATCH_0}" begin)
  string(SUBSTRING "${assembly}" ${begin} -1 body)
  string(FIND "${body}" "\tret" end)
  string(SUBSTRING "${body}" 0 ${end} body)
  string(REGEX MATCHALL "\n\t[a-z][a-z0-9]*" found "${body}")
  list(TRANSFORM found STRIP)
  list(SORT found)
  set(${out} "${found}" PARENT_SCOPE)
endfunction()

foreach(equation epley brzycki lander)
  instructions_of(library_${equation} library)
  instructions_of(by_hand_${equation} by_hand)
  list(LENGTH library count)
  if(NOT library STREQUAL by_hand OR count LESS 8)
    message(FATAL_ERROR "${equation}:\nthe library: ${library}\nby hand:     ${by_hand}")
  endif()
  message(STATUS "${equation}: the same ${count} instructions")
endforeach()
