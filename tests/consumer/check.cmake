# Builds and runs the consumer project, in a way that says where the library comes from:
#   install       an installed tree, by find_package; and its headers, each as it was installed
#   subdirectory  the source tree, by add_subdirectory
#   fetch         the source tree, by FetchContent
#   pkg_config    an installed tree, by a compiler and pkg-config alone
#   debian        the Debian package, unpacked but not installed, by find_package
# install and subdirectory end in _without_eigen where Eigen must not be found.
file(REMOVE_RECURSE ${WORK})
set(here ${CMAKE_CURRENT_LIST_DIR})
set(prefix ${WORK}/prefix)
set(forward_prints "barwright ${BARWRIGHT_VERSION}: 100 kg\n")
set(learning_prints "learning: 120 kg, 96 kg\n")
set(options -DCMAKE_CXX_COMPILER=${COMPILER} -DWANTED_VERSION=${BARWRIGHT_VERSION})
set(programs forward learning)
if(WAY MATCHES without_eigen)
  list(APPEND options -DCMAKE_DISABLE_FIND_PACKAGE_Eigen3=ON -DWITH_LEARNING=OFF)
  set(programs forward)
else()
  list(APPEND options -DWITH_LEARNING=ON)
endif()

function(run)
  execute_process(COMMAND ${ARGN} COMMAND_ERROR_IS_FATAL ANY)
endfunction()

# Puts the words that pkg-config prints into the list `words`.
function(ask_pkg_config)
  execute_process(COMMAND ${CMAKE_COMMAND} -E env PKG_CONFIG_PATH=${WORK}/prefix/share/pkgconfig
                          ${PKG_CONFIG} ${ARGN}
                  OUTPUT_VARIABLE output COMMAND_ERROR_IS_FATAL ANY)
  separate_arguments(output UNIX_COMMAND "${output}")
  set(words ${output} PARENT_SCOPE)
endfunction()

# ---- get the library ----

if(WAY MATCHES "install|pkg_config")
  execute_process(COMMAND ${CMAKE_COMMAND} --install ${BARWRIGHT_BUILD} --prefix ${prefix}
                  OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
elseif(WAY STREQUAL debian)
  execute_process(COMMAND ${CMAKE_CPACK_COMMAND} --config ${BARWRIGHT_BUILD}/CPackConfig.cmake
                          -B ${WORK}
                  OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
  set(package ${WORK}/libbarwright-dev_${BARWRIGHT_VERSION}_all.deb)
  execute_process(COMMAND ${DPKG_DEB} --field ${package} Package Version Architecture Depends
                          Recommends
                  OUTPUT_VARIABLE fields COMMAND_ERROR_IS_FATAL ANY)
  set(expected "Package: libbarwright-dev\nVersion: ${BARWRIGHT_VERSION}\nArchitecture: all\n")
  string(APPEND expected "Recommends: libeigen3-dev (>= 3.4)\n")
  if(NOT fields STREQUAL expected)
    message(FATAL_ERROR "expected the package to say\n${expected}got\n${fields}")
  endif()
  run(${DPKG_DEB} --extract ${package} ${WORK}/root)
  set(prefix ${WORK}/root/usr)
  # Every header is in it, and nothing that does not belong there.
  file(GLOB_RECURSE files RELATIVE ${prefix} ${WORK}/root/*)
  foreach(name IN LISTS HEADERS)
    list(REMOVE_ITEM files include/barwright/${name}.hpp)
    if(NOT EXISTS ${prefix}/include/barwright/${name}.hpp)
      message(FATAL_ERROR "${name}.hpp is not in the package")
    endif()
  endforeach()
  file(GLOB_RECURSE bodies RELATIVE ${BARWRIGHT_SOURCE} ${BARWRIGHT_SOURCE}/include/*.ipp)
  foreach(body IN LISTS bodies)
    list(REMOVE_ITEM files ${body})
    if(NOT EXISTS ${prefix}/${body})
      message(FATAL_ERROR "${body} is not in the package")
    endif()
  endforeach()
  list(FILTER files EXCLUDE REGEX "^share/(cmake/barwright|doc/barwright|pkgconfig)/")
  if(files)
    message(FATAL_ERROR "the package should not have ${files}")
  endif()
endif()

# ---- build ----

file(MAKE_DIRECTORY ${WORK}/build)
if(WAY STREQUAL pkg_config)
  foreach(program IN LISTS programs)
    set(module barwright)
    if(program STREQUAL learning)
      set(module barwright-learning)
    endif()
    ask_pkg_config(--modversion ${module})
    if(NOT words STREQUAL BARWRIGHT_VERSION)
      message(FATAL_ERROR "${module} has version ${words}")
    endif()
    ask_pkg_config(--cflags --libs ${module})
    run(${COMPILER} -std=c++20 ${here}/${program}.cpp -o ${WORK}/build/${program} ${words})
  endforeach()
else()
  if(WAY MATCHES install)
    set(includes "")
    foreach(name IN LISTS HEADERS)
      string(APPEND includes "#include <barwright/${name}.hpp>\n")
    endforeach()
    file(WRITE ${WORK}/everything.cpp "${includes}")
    list(APPEND options -DEVERYTHING=${WORK})
  endif()
  if(WAY MATCHES subdirectory)
    list(APPEND options -DBARWRIGHT_SOURCE=${BARWRIGHT_SOURCE})
  elseif(WAY STREQUAL fetch)
    list(APPEND options -DFETCH=ON -DFETCHCONTENT_SOURCE_DIR_BARWRIGHT=${BARWRIGHT_SOURCE})
  else()
    list(APPEND options -DCMAKE_PREFIX_PATH=${prefix})
  endif()
  run(${CMAKE_COMMAND} -S ${here} -B ${WORK}/build -G ${GENERATOR} ${options})
  run(${CMAKE_COMMAND} --build ${WORK}/build)
endif()

# ---- run ----

foreach(program IN LISTS programs)
  execute_process(COMMAND ${WORK}/build/${program} OUTPUT_VARIABLE output
                  COMMAND_ERROR_IS_FATAL ANY)
  if(NOT output STREQUAL ${program}_prints)
    message(FATAL_ERROR "expected ${${program}_prints}got ${output}")
  endif()
endforeach()
if(WAY STREQUAL install)
  # Header-only and compiled, a model's answers are the same to the last bit.
  run(${CMAKE_COMMAND} --build ${WORK}/build --target header_only compiled)
  foreach(program header_only compiled)
    execute_process(COMMAND ${WORK}/build/${program} OUTPUT_VARIABLE ${program}_output
                    COMMAND_ERROR_IS_FATAL ANY)
  endforeach()
  if(compiled_output STREQUAL "" OR NOT compiled_output STREQUAL header_only_output)
    message(FATAL_ERROR "compiled: expected ${header_only_output}got ${compiled_output}")
  endif()
endif()
if(WAY MATCHES install)
  set(message "caught: a load must be a number of kilograms from 0 to 1000000; got -20\n")
  foreach(program mixed mixed_turned)
    execute_process(COMMAND ${WORK}/build/${program} RESULT_VARIABLE result OUTPUT_VARIABLE output
                    ERROR_VARIABLE errors)
    if(NOT output STREQUAL message)
      message(FATAL_ERROR "${program}: expected ${message}got ${result}: ${output}${errors}")
    endif()
  endforeach()
  # A type of the library that passes from one to the other is not the same: it does not link.
  execute_process(COMMAND ${CMAKE_COMMAND} --build ${WORK}/build --target mixed_type
                  RESULT_VARIABLE result OUTPUT_VARIABLE output ERROR_VARIABLE errors)
  if(result EQUAL 0 OR NOT "${output}${errors}" MATCHES "kilograms_of")
    message(FATAL_ERROR "expected kilograms_of(Mass) not to be found; got ${result}:\n${output}")
  endif()
endif()
if(WAY MATCHES install)
  set(PROGRAM ${WORK}/build/everything)
  include(${here}/check_abort.cmake)
endif()

if(WAY STREQUAL install_without_eigen)
  # Whoever asks for learning where Eigen is missing is told so.
  execute_process(COMMAND ${CMAKE_COMMAND} -S ${here} -B ${WORK}/refused -G ${GENERATOR} ${options}
                          -DWITH_LEARNING=ON
                  RESULT_VARIABLE result OUTPUT_QUIET ERROR_VARIABLE errors)
  if(result EQUAL 0 OR NOT errors MATCHES "Eigen3")
    message(FATAL_ERROR "expected a refusal that names Eigen3; got ${result}:\n${errors}")
  endif()
endif()
