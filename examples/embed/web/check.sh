#!/bin/sh
# examples/embed/web/check.sh - builds the page and checks it in headless Chromium
#
#   sh examples/embed/web/check.sh [FOLDER]    built in FOLDER, or in build/web
#
# Needs emscripten, chromium, python3 and a C++ compiler (CXX, or g++). Exit status 77 without them.
set -eu
unset CDPATH
folder=${1:-$(dirname -- "$0")/../../../build/web}
here=$(cd -- "$(dirname -- "$0")" && pwd)
for program in emcc python3 "${CXX:-g++}"; do
  if ! command -v "$program" >/dev/null; then echo "left out: no $program"; exit 77; fi
done
if ! command -v chromium >/dev/null && ! command -v chromium-browser >/dev/null; then
  echo "left out: no chromium"
  exit 77
fi

sh "$here/build.sh" "$folder/page"
"${CXX:-g++}" -std=c++20 -I"$here/../../../include" "$here/native.cpp" "$here/answer.cpp" \
  -o "$folder/embed_web_native"
if command -v node >/dev/null; then node "$here/check_module.mjs" "$folder/page"; fi

# The native answer in a host that writes commas: the same. glibc's localedef makes such a locale.
question="lift=bench_press&changes=&kg=62.5&reps=5&left=2.5&next_reps=6&next_left=2&bar=20"
if localedef -f UTF-8 -i de_DE "$folder/de_DE.UTF-8" 2>/dev/null &&
  [ "$(LOCPATH=$folder LC_ALL=de_DE.UTF-8 locale decimal_point)" = , ]; then
  if [ "$(LOCPATH=$folder LC_ALL=de_DE.UTF-8 "$folder/embed_web_native" "$question")" != \
    "$(LC_ALL=C "$folder/embed_web_native" "$question")" ]; then
    echo "the answer depends on the host's locale"
    exit 1
  fi
else
  echo "left out: no locale that writes a decimal comma"
fi

python3 "$here/check.py" "$folder/page" "$folder/embed_web_native"
