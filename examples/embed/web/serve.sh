#!/bin/sh
# examples/embed/web/serve.sh - builds the page in build/web and serves it to this machine only
#
#   sh examples/embed/web/serve.sh [PORT]      then open http://127.0.0.1:8000/ ; ends with Ctrl-C
#
# Needs emscripten and python3 (Debian/Ubuntu: apt-get install emscripten).
set -eu
unset CDPATH
cd -- "$(dirname -- "$0")/../../.."
sh examples/embed/web/build.sh build/web/page
exec python3 -m http.server "${1:-8000}" --bind 127.0.0.1 --directory build/web/page
