# Fails when SOURCE reaches one of the headers that cost every user compile time.
#   cmake -DCOMPILE=<compiler and flags> -DSOURCE=<file> -P check_reach.cmake
execute_process(COMMAND ${COMPILE} -M ${SOURCE} OUTPUT_VARIABLE reached COMMAND_ERROR_IS_FATAL ANY)
string(REGEX MATCHALL "[^ \n\\]*/(Eigen/[A-Z][A-Za-z]*|iostream|ranges|random|functional)[ \n]"
       refused "${reached}")
if(refused)
  list(REMOVE_DUPLICATES refused)
  string(REPLACE ";" " " refused "${refused}")
  message(FATAL_ERROR "${SOURCE} reaches ${refused}\n"
                      "The compiler shows the way with -H: see DEVELOPERS.md.")
endif()
# A check that reads nothing would pass for ever.
if(NOT reached MATCHES "/barwright/[a-z_/]+\\.hpp")
  message(FATAL_ERROR "no header of ours among what ${SOURCE} reaches:\n${reached}")
endif()
