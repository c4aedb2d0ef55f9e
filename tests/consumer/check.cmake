# Builds and runs the consumer project, in a way that says where the library comes from: WAY is
# install or subdirectory, and ends in _without_eigen where Eigen must not be found.
file(REMOVE_RECURSE ${WORK})
set(options -DCMAKE_CXX_COMPILER=${COMPILER} -DWANTED_VERSION=${BARWRIGHT_VERSION})
if(WAY MATCHES without_eigen)
  list(APPEND options -DCMAKE_DISABLE_FIND_PACKAGE_Eigen3=ON -DWITH_LEARNING=OFF)
  set(programs forward)
else()
  list(APPEND options -DWITH_LEARNING=ON)
  set(programs forward learning)
endif()
if(WAY MATCHES install)
  execute_process(COMMAND ${CMAKE_COMMAND} --install ${BARWRIGHT_BUILD} --prefix ${WORK}/prefix
                  OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
  list(APPEND options -DCMAKE_PREFIX_PATH=${WORK}/prefix)
else()
  list(APPEND options -DBARWRIGHT_SOURCE=${BARWRIGHT_SOURCE})
endif()

execute_process(COMMAND ${CMAKE_COMMAND} -S ${CMAKE_CURRENT_LIST_DIR} -B ${WORK}/build
                        -G ${GENERATOR} ${options} COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND ${CMAKE_COMMAND} --build ${WORK}/build COMMAND_ERROR_IS_FATAL ANY)

set(forward_prints "barwright ${BARWRIGHT_VERSION}: 100 kg\n")
set(learning_prints "learning: 100 kg\n")
foreach(program IN LISTS programs)
  execute_process(COMMAND ${WORK}/build/${program} OUTPUT_VARIABLE output
                  COMMAND_ERROR_IS_FATAL ANY)
  if(NOT output STREQUAL ${program}_prints)
    message(FATAL_ERROR "expected ${${program}_prints}got ${output}")
  endif()
endforeach()

if(WAY STREQUAL install_without_eigen)
  # Whoever asks for learning where Eigen is missing is told so.
  execute_process(COMMAND ${CMAKE_COMMAND} -S ${CMAKE_CURRENT_LIST_DIR} -B ${WORK}/refused
                          -G ${GENERATOR} ${options} -DWITH_LEARNING=ON
                  RESULT_VARIABLE result OUTPUT_QUIET ERROR_VARIABLE errors)
  if(result EQUAL 0 OR NOT errors MATCHES "Eigen3")
    message(FATAL_ERROR "expected a refusal that names Eigen3; got ${result}:\n${errors}")
  endif()
endif()
