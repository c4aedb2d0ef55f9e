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
python3 "$here/check.py" "$folder/page" "$folder/embed_web_native"
