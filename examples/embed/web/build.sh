#!/bin/sh
# examples/embed/web/build.sh - compiles the library to WebAssembly and puts the page beside it
#
#   sh examples/embed/web/build.sh FOLDER
#
# Needs emscripten; its optimiser is a node program that needs acorn, which Debian keeps apart.
set -eu
if [ $# -ne 1 ]; then
  echo "usage: build.sh FOLDER" >&2
  exit 2
fi
mkdir -p "$1"
folder=$(cd "$1" && pwd)
cd -- "$(dirname -- "$0")"

compat=""  # for the standard library of Debian 12's emscripten, which is older than barwright's
case $(emcc --version) in *" 3.1.6 "*) compat=-Icompat ;; esac
NODE_PATH="${NODE_PATH:+$NODE_PATH:}/usr/share/nodejs" emcc -std=c++20 -O2 -fexceptions \
  -Wall -Wextra -Wpedantic -Wno-gnu-include-next $compat -I../../../include module.cpp answer.cpp \
  -o "$folder/barwright.mjs" --no-entry -sMODULARIZE -sEXPORT_ES6 -sENVIRONMENT=web \
  -sABORTING_MALLOC=0 -sEXPORTED_FUNCTIONS=_question_limit,_catalogue,_answer,_malloc,_free \
  -sEXPORTED_RUNTIME_METHODS=UTF8ToString,stringToUTF8,lengthBytesUTF8
cp index.html page.css page.js library.js "$folder"
