# A chart is drawn, by an image's first bytes, and gnuplot has nothing to complain of.
#   cmake -DPROGRAM=<review_block> -DLOG=<file> -DCHART=<file to draw> -P ...
file(REMOVE ${CHART})
execute_process(COMMAND ${PROGRAM} ${LOG} --lifter "Tilde Ravn" --lift "bench press"
                        --with "feet up" --chart ${CHART}
                RESULT_VARIABLE status OUTPUT_QUIET ERROR_VARIABLE errors)
if(NOT status EQUAL 0 OR errors)
  message(FATAL_ERROR "exit status ${status}\n${errors}")
endif()
file(READ ${CHART} start LIMIT 5 HEX)
if(CHART MATCHES "png$" AND NOT start MATCHES "^89504e47")  # \x89PNG
  message(FATAL_ERROR "${CHART} is no PNG")
elseif(CHART MATCHES "svg$" AND NOT start STREQUAL "3c3f786d6c")  # <?xml
  message(FATAL_ERROR "${CHART} is no SVG")
endif()
file(SIZE ${CHART} size)
if(size LESS 10000)
  message(FATAL_ERROR "${CHART} has nothing on it: ${size} bytes")
endif()
