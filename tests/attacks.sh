#!/bin/sh
# tests/attacks.sh - what a log, a file name or an argument from outside must not do to a machine
#
#   sh tests/attacks.sh FOLDER       the folder of the built examples
#
# Each attack, what happened and what happens now: docs/attacks.md. All within a limit of processor
# time, so that what never ended before ends here, as a failure.
set -u
programs=$(cd -- "$1" && pwd)
cd -- "$(dirname -- "$0")/.."
log=$(pwd)/examples/data/rowing_club.csv
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
ulimit -t 60
PATH=$programs:$PATH
failures=0

fail() { echo "FAILED: $*"; failures=$((failures + 1)); }
# expect STATUS NAME: the last run ended so
expect() { [ "$status" -eq "$1" ] || { fail "$2: exit status $status, not $1"; head -5 out err; }; }
run() { status=0; "$@" >out 2>err || status=$?; }
# Whether a file holds nothing that a terminal would obey. Line ends are those of the page.
is_shown() { ! LC_ALL=C tr -d '\n' <"$1" | LC_ALL=C grep -q '[[:cntrl:]]'; }

header=date,lifter,lift,modifiers,load,unit,reps,rir,outcome
sets() { # sets NAME: twelve plain sets and twelve with feet up
  for day in 01 03 05 07 09 11; do
    for change in "" "feet up"; do
      echo "2026-10-$day,\"$1\",bench press,$change,60,kg,6,2,"
      echo "2026-10-$day,\"$1\",bench press,$change,62.5,kg,6,1,"
    done
  done
}

# ---- no command of a log or a path is run

name='Eve
!touch pwned
#'
{ echo $header; sets "$name"; sets Ana; } >command.csv
run review_block command.csv --lifter "eve !touch pwned #" --lift "bench press" --with "feet up" --chart a.svg
[ ! -e pwned ] || fail "a name in a log ran a command"
expect 2 "a name with line breaks is no lifter's"
run review_block command.csv --lifter Ana --lift "bench press" --with "feet up" --chart "|touch pwned; cat >y.svg"
[ ! -e pwned ] || fail "the path of a chart ran a command"
expect 2 "a pipe is no chart"
run review_block command.csv --lifter Ana --lift "bench press" --with "feet up" --chart 'a
!touch pwned
.svg'
[ ! -e pwned ] || fail "a line break in the path of a chart ran a command"
expect 2 "a line break is no part of a chart's name"
mkfifo fifo.svg && mkdir folder.svg
for path in fifo.svg folder.svg /dev/null; do
  run review_block command.csv --lifter Ana --lift "bench press" --with "feet up" --chart $path
  expect 2 "$path is no chart"
done

# ---- a file has an end

quick() { # quick SECONDS NAME COMMAND...: ends within so many seconds of processor time
  most=$1 name=$2; shift 2
  status=0; (ulimit -t "$most"; exec "$@" >out 2>err) || status=$?
  [ "$status" -lt 128 ] || fail "$name: not ended within $most s (exit status $status)"
}
awk 'BEGIN { print "date,lifter,lift,modifiers,load,unit,reps,rir,outcome"
             for (i = 0; i < 100000; ++i) print "2026-01-01,\"A,bench press,,60,kg,6,2,,1" }' >quotes.csv
quick 10 "4 MB of unclosed quotes" plan_session quotes.csv
expect 2 "unclosed quotes are no log"
awk 'BEGIN { printf "date,lifter,lift,load,unit,reps\n2026-01-01,A,"
             for (i = 0; i < 1000000; ++i) printf "qqqqqqqqqq"; print ",60,kg,6" }' >field.csv
quick 5 "a field of 10 MB" plan_session field.csv
expect 2 "a field of 10 MB is no lift"
[ "$(wc -c <err)" -lt 10000 ] || fail "a field of 10 MB is printed"
awk 'BEGIN { for (i = 0; i < 2000000; ++i) print "x,\"" }' >nonsense.csv
quick 5 "8 MB of nonsense" plan_session nonsense.csv
awk 'BEGIN { print "date,lifter,lift,load,unit,reps"
             for (i = 0; i < 600000; ++i) print "x" i ",b,ben" i ",c,d,e" }' >wrong.csv
quick 30 "600,000 wrong lines" plan_session wrong.csv
[ "$(wc -l <err)" -lt 11000 ] || fail "600,000 lines are said to be wrong one by one"
awk 'BEGIN { for (i = 0; i < 1700000; ++i) print "xxxxxxxxx" }' >large.csv
quick 5 "17 MB" plan_session large.csv
expect 2 "17 MB are too much"
grep -q -- --any-size err || fail "no word on how a large file is read"
for path in /dev/zero fifo.svg folder.svg; do
  for program in "plan_session --lift squat --lifter A" "plan_block --lift squat --lifter A" review_block check_week; do
    quick 5 "$program $path" $program $path
    expect 2 "$program: $path is no log"
  done
done
awk 'BEGIN { print "date,lifter,lift,load,unit,reps"
             for (i = 0; i < 300000; ++i) print "2026-01-01,Name " i ",squat,100,kg,5" }' >names.csv
quick 15 "300,000 lifters" plan_session names.csv
expect 0 "300,000 lifters are listed"
awk 'BEGIN { print "date,lifter,lift,load,unit,reps"
             for (i = 0; i < 60000; ++i) print "2026-01-01,Ana,squat," 1 + i % 900 "." int(i / 900) ",kg,20x5" }' >sets.csv
quick 20 "1,200,000 sets in 60,000 rows" plan_session sets.csv
expect 1 "more than 1,000,000 sets are refused by their lines"
status=0; plan_session - <"$log" >out 2>err || status=$?
expect 0 "a log on standard input"
head -c 20000000 /dev/zero >zero; status=0; plan_session - <zero >out 2>err || status=$?
expect 2 "20 MB on standard input"
awk 'BEGIN { print "day,lift,sets,reps,rir"
             for (i = 0; i < 50000; ++i) print "Monday,squat," 1 + i % 50 "," 1 + int(i / 50) % 100 "," int(i / 5000) }' >week.csv
quick 5 "a week of 50,000 rows" check_week week.csv
expect 2 "50,000 rows are no week"

# ---- a drawing holds names as text

name='<script>alert(1)</script> & '"'O''Neill'"
{ echo $header; sets "$name"; } >markup.csv
run review_block markup.csv --lifter "$name" --lift "bench press" --with "feet up" --chart markup.svg
expect 0 "a name may hold anything that can be shown"
if [ -e markup.svg ]; then
  ! grep -q '<script' markup.svg || fail "a name became markup"
  if command -v xmllint >/dev/null 2>&1; then xmllint --noout markup.svg || fail "no XML"; fi
else
  fail "no chart for a name with markup in it"
fi

# ---- nothing is sent to the terminal but text

escape=$(printf '\033]0;owned\007\033[2J')
{ echo $header; echo "2026-10-01,Eve$escape,bench press,,60,kg,6,2,"; sets Ana
  echo "2026-10-02,Ana,ben$escape,,60,kg,6,2,"; } >escape.csv
for program in plan_session plan_block review_block; do
  run $program escape.csv --lifter "Eve$escape" --lift "bench press"
  is_shown out && is_shown err || fail "$program sent control characters to the terminal"
done
run plan_session escape.csv
grep -q '\\x1B\]0;owned' err || fail "what a log holds is not shown"
is_shown out && is_shown err || fail "the list of a log sent control characters"
run plan_session --max "100 kg" --lift squat --lifter "Eve$escape
STOP  Nothing to see; load 300 kg" --date 2026-10-01
is_shown out && is_shown err || fail "--lifter sent control characters"
! grep -q '^STOP  Nothing' out || fail "--lifter forged a line"
cp escape.csv "a$escape.csv"
run plan_session "a$escape.csv"
is_shown out && is_shown err || fail "the name of a file sent control characters"
run check_week "a$escape.csv"
is_shown err || fail "check_week sent control characters"
for program in "load_bar" "estimate_max 1 kg 1" "effort_table" "describe_variation 100 kg" "plan_block --lift"; do
  run $program "x$escape
y" 5
  is_shown out && is_shown err || fail "$program sent control characters"
  [ "$status" -ne 0 ] || fail "$program took it"
done

# ---- a squad has an end

awk 'BEGIN { print "date,lifter,lift,load,unit,reps"
             for (i = 0; i < 30000; ++i) print "2026-01-01,Name " i ",squat,100,kg,5" }' >squad.csv
quick 5 "a sheet for 30,000 lifters" squad_sheet squad.csv --lift squat --date 2026-01-02 --spotter
expect 2 "30,000 lifters have no room on a sheet"
quick 5 "the weeks of 30,000 lifters" look_back squad.csv
expect 2 "30,000 lifters are no squad to look back on"
{ echo $header; sets Ana; sets Bo; echo "2029-10-01,Bo,bench press,,60,kg,6,2,"; } >year.csv
run look_back year.csv
expect 0 "one lifter's date a year off"
grep -q "^Ana: " out && grep -q "^Bo: .*date" out || fail "one lifter's date stops the others"

# ---- pain is not overlooked

# pain_in NAME ROW: a row that speaks of pain stops the lift, whatever else is wrong with it
pain_in() {
  { echo $header,note; sets Ana | sed 's/$/,/'; echo "$2"; } >pain.csv
  run plan_session pain.csv --lifter Ana --lift "bench press" --date 2026-10-13 --spotter
  expect 3 "pain in $1"
  grep -q "It hurt" out || fail "pain in $1: another stop"
}
pain_in "a row without reps" "2026-10-12,Ana,bench press,,60,kg,0,,,sharp pain in shoulder - stopped"
pain_in "a row with a comma too many" "2026-10-12,Ana,bench press,,60,kg,3,,,shoulder hurt, stopped"
pain_in "a misspelt lift" "2026-10-12,Ana,bnhc pres,,60,kg,3,,,sharp pain in shoulder"
pain_in "the column of ratings" "2026-10-12,Ana,bench press,,60,kg,3,pain,,"
pain_in "a set that fits no other" "2026-10-12,Ana,bench press,,20,kg,3,0,,sharp pain in shoulder"
run plan_session pain.csv --lifter Ana --lift "bench press" --date 2026-10-13 --spotter --pain no
expect 0 "pain that somebody qualified has looked at"
{ echo $header,injury; sets Ana | sed 's/$/,no/'; } >pain.csv
run plan_session pain.csv --lifter Ana --lift "bench press" --date 2026-10-13 --spotter
expect 0 "a column that says no"
echo "2026-10-12,Ana,bench press,,60,kg,6,2,,left knee" >>pain.csv
run plan_session pain.csv --lifter Ana --lift "bench press" --date 2026-10-13 --spotter
expect 3 "a column that says where"
{ echo $header; sets Ana; } >today.csv
run plan_session today.csv --lifter Ana --lift "bench press" --date 2026-10-13 --spotter \
  --today "60 x 6, sharp pain"
expect 3 "pain today"

# ---- a doubtful log is called so on a squad's sheet, too

{ echo $header; sets Ana; echo "2026-10-12,Ana,bench press,,85,kg,6,2,"; } >jump.csv
run squad_sheet jump.csv --lift "bench press" --date 2026-10-16 --spotter
grep -q "log contradicts" out || fail "a doubtful log, and no word of it on the sheet"

# ---- what could not be written is not called done

if [ -e /dev/full ]; then
  for ask in "plan_session $log" "check_week $(dirname "$log")/rowing_week.csv" load_bar estimate_max \
    effort_table describe_variation "plan_session --help" first_program; do
    status=0; $ask >/dev/full 2>err || status=$?
    [ "$status" -ne 0 ] || fail "$ask: success on a full disk"
    status=0; $ask >&- 2>err || status=$?
    [ "$status" -ne 0 ] || fail "$ask: success without an output"
  done
fi
(ulimit -f 8; trap '' XFSZ
 review_block "$log" --lifter "Tilde Ravn" --lift "bench press" --with "feet up" --chart cut.svg >/dev/null 2>&1) &&
  fail "a chart that was cut is called finished"
[ ! -e cut.svg ] || fail "half a chart is there"
ls cut.svg.part* >/dev/null 2>&1 && fail "half a chart is left behind"
(ulimit -f 8
 review_block "$log" --lifter "Tilde Ravn" --lift "bench press" --with "feet up" --chart cut.svg >/dev/null 2>&1) &&
  fail "a chart that was cut by a limit is called finished"
ls cut.svg* >/dev/null 2>&1 && fail "half a chart is left behind by a limit"
echo mine >mine.svg; ln -s mine.svg link.svg; ln -s nowhere.svg dangling.svg
for path in link.svg dangling.svg; do
  run review_block "$log" --lifter "Tilde Ravn" --lift "bench press" --with "feet up" --chart $path
  expect 2 "a chart through a link"
done
[ "$(cat mine.svg)" = mine ] && [ ! -e nowhere.svg ] && [ -L link.svg ] || fail "a chart went through a link"
run review_block "$log" --lifter "Tilde Ravn" --lift "bench press" --with "feet up" --chart whole.svg
expect 0 "a chart that is whole"

if [ "$failures" -gt 0 ]; then echo "$failures failures"; exit 1; fi
echo "no attack got through"
