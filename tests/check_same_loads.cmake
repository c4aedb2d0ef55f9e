# To the same question plan_session and the first week of plan_block put the same load on the bar,
# whether a log or a stated max says how strong the lifter is.
#
#   ROOT      the top of the repository
#   PROGRAMS  the folder of the example programs
set(club examples/data/rowing_club.csv)

function(load_by program pattern load)
  execute_process(COMMAND ${PROGRAMS}/${program} ${ARGN} WORKING_DIRECTORY ${ROOT}
                  OUTPUT_VARIABLE page RESULT_VARIABLE status)
  if(NOT status EQUAL 0 OR NOT page MATCHES "${pattern}")
    message(FATAL_ERROR "${program} ${ARGN}: no load, status ${status}\n${page}")
  endif()
  set(${load} ${CMAKE_MATCH_1} PARENT_SCOPE)
endfunction()

# The reserve of the first week is that of all weeks, so that the last has no more to say.
function(expect_same_load reserve)
  load_by(plan_session "\n  work +([0-9.]+ [kl][gb])" session
          ${ARGN} --reserve ${reserve} --date 2026-11-30)
  load_by(plan_block " 1  1[-0-9]* +[a-z]+[ 1]* +([0-9.]+ [kl][gb])" block
          ${ARGN} --reserve ${reserve} --last-reserve ${reserve} --start 2026-11-30)
  if(NOT session STREQUAL block)
    message(SEND_ERROR "plan_session ${session}, plan_block ${block}: ${ARGN}, ${reserve} left")
  endif()
endfunction()

foreach(reserve 3 2)
  expect_same_load(${reserve} --lift squat --max "170 kg" --safeties checked)
  expect_same_load(${reserve} --lift squat --max "170 kg" --safeties checked
                   --max-chance-of-missing 1)
  expect_same_load(${reserve} --lift deadlift --max "405 lb" --reps 3 --sets 5)
  expect_same_load(${reserve} --lift "bench press" --with incline --max "100 kg" --done 20
                   --spotter)
  expect_same_load(${reserve} --lift "bench press" --with incline --max "225 lb" --spotter)
  expect_same_load(${reserve} --lift "leg press" --max "200 kg" --reps 10)
  expect_same_load(${reserve} ${club} --lifter "Bram Osei" --lift "bench press" --with pause
                   --spotter)
  expect_same_load(${reserve} --lift squat --with "front squat" --max "140 kg" --done 20
                   --safeties checked)
  expect_same_load(${reserve} ${club} --lifter "Bram Osei" --lift "bench press" --spotter)
  expect_same_load(${reserve} ${club} --lifter "Tilde Ravn" --lift "bench press" --with "feet up"
                   --max "75 kg" --spotter)
endforeach()
