# What README.md quotes is what the programs are and print, character by character.
#   cmake -DREADME=<file> -DEXAMPLES=<folder> -P ...
file(READ ${README} readme)
file(READ ${EXAMPLES}/first_program.cpp program)
file(READ ${EXAMPLES}/expected/first_program.txt printed)
file(READ ${EXAMPLES}/expected/plan_session.txt session)
string(FIND "${session}" "\nHow strong" end)
string(SUBSTRING "${session}" 0 ${end} session)
foreach(quoted program printed session)
  string(FIND "${readme}" "\n${${quoted}}" place)
  if(place EQUAL -1)
    message(FATAL_ERROR "README.md does not quote this as it is now:\n${${quoted}}")
  endif()
endforeach()
