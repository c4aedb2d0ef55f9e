# A chart is drawn, whole, and of numbers.
#   cmake -DPROGRAM=<review_block> -DLOG=<file> -DCHART=<file to draw> -P ...
file(REMOVE ${CHART})
execute_process(COMMAND ${PROGRAM} ${LOG} --lifter "Tilde Ravn" --lift "bench press"
                        --with "feet up" --chart ${CHART}
                RESULT_VARIABLE status OUTPUT_QUIET ERROR_VARIABLE errors)
if(NOT status EQUAL 0 OR errors)
  message(FATAL_ERROR "exit status ${status}\n${errors}")
endif()
file(READ ${CHART} chart)
if(NOT chart MATCHES "^<svg.*</svg>\n$" OR chart MATCHES "nan|inf[ ,\"]")
  message(FATAL_ERROR "${CHART} is no whole drawing")
endif()
string(REGEX MATCHALL "<circle|<polygon|<polyline|<text" shapes "${chart}")
list(LENGTH shapes count)
if(count LESS 100)
  message(FATAL_ERROR "${CHART} has too little on it: ${count} shapes")
endif()
