# Fails when a header, or a body (.ipp), does not compile alone, and twice; or, where LIGHT, when it
# reaches one of the headers that cost every user compile time.
#   cmake -DCOMPILE=<compiler and flags> -DINCLUDE=<include folder> -DHEADER=<path below barwright/>
#         -DWORK=<folder> -DHUBS=<headers> [-DLIGHT=ON] -P check_header.cmake
# Most of what a header costs is what it includes, so clang++ reads it on top of the first of HUBS that it
# reaches, which the check of that hub has precompiled. That hides no missing include: what the hub
# brings, the header has brought itself; and a header in between has a check of its own.
cmake_policy(SET CMP0057 NEW)  # if(x IN_LIST y)
string(REPLACE "/" "_" stem ${HEADER})
set(source ${WORK}/${stem}.cpp)
set(reached ${WORK}/${stem}.d)
file(WRITE ${source} "#include \"barwright/${HEADER}\"\n#include \"barwright/${HEADER}\"\n")

set(ours ${HEADER})
set(left ${HEADER})
while(left)
  list(POP_FRONT left next)
  file(STRINGS ${INCLUDE}/barwright/${next} lines REGEX "^#include \"barwright/.+\\.hpp\"")
  foreach(line IN LISTS lines)
    string(REGEX REPLACE "^#include \"barwright/(.+\\.hpp)\".*" "\\1" included "${line}")
    if(NOT included IN_LIST ours)
      list(APPEND ours ${included})
      list(APPEND left ${included})
    endif()
  endforeach()
endwhile()

set(how -fsyntax-only)
if(HEADER IN_LIST HUBS)
  set(how -x c++-header -o ${WORK}/${stem}.pch)
else()
  foreach(hub IN LISTS HUBS)
    if(hub IN_LIST ours)
      string(REPLACE "/" "_" hub ${hub})
      list(APPEND how -include-pch ${WORK}/${hub}.pch)
      break()
    endif()
  endforeach()
endif()
execute_process(COMMAND ${COMPILE} ${how} -MD -MF ${reached} ${source} COMMAND_ERROR_IS_FATAL ANY)
file(READ ${reached} reached)
string(REGEX MATCHALL "[^ \n\\]*/(Eigen/[A-Z][A-Za-z]*|iostream|ranges|random|functional)[ \n]"
       refused "${reached}")
if(LIGHT AND refused)
  list(REMOVE_DUPLICATES refused)
  string(REPLACE ";" " " refused "${refused}")
  message(FATAL_ERROR "${HEADER} reaches ${refused}\n"
                      "The compiler shows the way with -H: see DEVELOPERS.md.")
endif()
# A check that reads nothing would pass for ever.
string(REPLACE "." "\\." pattern ${HEADER})
if(NOT reached MATCHES "/barwright/${pattern}")
  message(FATAL_ERROR "${HEADER} is not among what was read:\n${reached}")
endif()
