# A program that the compiler must refuse, and for the right reason; without its mistake it compiles.
#
#   COMPILE  the compiler's command, with options
#   SOURCE   the program; with -DWRONG, or the line "// flags: ..." where it has one, it is wrong. The
#            line "// says: ..." is a regular expression that the compiler's answer must match.
file(STRINGS ${SOURCE} lines)
set(flags -DWRONG)
foreach(line IN LISTS lines)
  if(line MATCHES "^// flags: (.+)$")
    set(flags "${CMAKE_MATCH_1}")
  elseif(line MATCHES "^// says: (.+)$")
    set(says "${CMAKE_MATCH_1}")
  endif()
endforeach()

execute_process(COMMAND ${COMPILE} -Wno-unused-variable -Wno-unused-const-variable -fsyntax-only
                        ${SOURCE}
                RESULT_VARIABLE result
                ERROR_VARIABLE errors)
if(NOT result EQUAL 0)
  message(FATAL_ERROR "without its mistake it should compile:\n${errors}")
endif()
execute_process(COMMAND ${COMPILE} ${flags} -fsyntax-only ${SOURCE} RESULT_VARIABLE result
                ERROR_VARIABLE errors)
if(result EQUAL 0)
  message(FATAL_ERROR "with its mistake it compiles")
endif()
if(NOT errors MATCHES "error: [^\n]*(${says})")
  message(FATAL_ERROR "expected an error that says \"${says}\"; got:\n${errors}")
endif()
