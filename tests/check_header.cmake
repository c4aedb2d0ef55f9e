# Fails when a header does not compile alone, and twice; or, where LIGHT, when it reaches one of the
# headers that cost every user compile time.
#   cmake -DCOMPILE=<compiler and flags> -DHEADER=<name> -DWORK=<folder> [-DLIGHT=ON] -P check_header.cmake
string(REPLACE "/" "_" stem ${HEADER})
set(source ${WORK}/${stem}.cpp)
set(reached ${WORK}/${stem}.d)
file(WRITE ${source} "#include \"barwright/${HEADER}.hpp\"\n#include \"barwright/${HEADER}.hpp\"\n")
execute_process(COMMAND ${COMPILE} -fsyntax-only -MD -MF ${reached} ${source}
                COMMAND_ERROR_IS_FATAL ANY)
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
if(NOT reached MATCHES "/barwright/${HEADER}\\.hpp")
  message(FATAL_ERROR "${HEADER} is not among what was read:\n${reached}")
endif()
