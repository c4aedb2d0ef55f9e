#!/bin/sh
# tests/lint.sh - the format of every file, and clang-tidy over every header
#
# Both tools change their minds between versions, so they are held to one: 14. The exit
# status is 0 when all is well, 1 when not, and 77 when neither tool is here.
set -eu
unset CDPATH
cd -- "$(dirname -- "$0")/.."

version_14() { "$1" --version 2>/dev/null | grep -q 'version 14\.'; }
tool() {  # the first of NAME-14 and NAME that is version 14
  for candidate in "$1-14" "$1"; do
    if version_14 "$candidate"; then echo "$candidate"; return; fi
  done
}

status=0
checked=no

format=$(tool clang-format)
if [ -n "$format" ]; then
  checked=yes
  echo "clang-format: include tests examples bench docs"
  find include tests examples bench docs -name '*.hpp' -o -name '*.ipp' -o -name '*.cpp' |
    xargs "$format" --dry-run --Werror || status=1
else
  echo "clang-format 14 is not here: the format is not checked"
fi

echo "comments: what a reflow of long lines leaves behind"
if grep -rnE --include='*.[hi]pp' --include='*.cpp' '[^/ ] +SPDX-License-Identifier' \
    include tests examples bench docs; then
  echo "the licence stands on a line of its own"
  status=1
fi
if grep -rnE -A1 --include='*.[hi]pp' --include='*.cpp' '^ *// ---- .*[^-]$' \
    include tests examples bench docs | grep -E -- '-[0-9]+- *// -+$'; then
  echo "a heading and its rule stand on one line"
  status=1
fi

tidy=$(tool clang-tidy)
if [ -n "$tidy" ]; then
  checked=yes
  echo "clang-tidy: every header"
  mkdir -p build
  find include -name '*.hpp' | sort | sed 's|include/\(.*\)|#include "\1"|' >build/lint.cpp
  eigen=/usr/include/eigen3
  if [ ! -d "$eigen" ]; then eigen=/usr/local/include/eigen3; fi
  "$tidy" --quiet --warnings-as-errors='*' --header-filter='include/barwright/' build/lint.cpp -- \
    -std=c++20 -Iinclude -isystem "$eigen" || status=1
else
  echo "clang-tidy 14 is not here: the headers are not linted"
fi

if [ $checked = no ]; then exit 77; fi
exit $status
