#!/bin/sh
# docs/charts/draw.sh - draws the charts of the guides again
#
#   sh docs/charts/draw.sh build/mine/examples      the folder of the built examples
set -eu
cd -- "$(dirname -- "$0")/../.."
examples=$1

"$examples/draw_charts" equations >docs/charts/equations.svg
"$examples/draw_charts" learnt_ratio examples/data/rowing_club.csv \
  >docs/charts/learnt_ratio.svg
"$examples/draw_charts" loaded_bar powerlifting 163 >docs/charts/loaded_bar.svg
"$examples/review_block" examples/data/rowing_club.csv --lifter "Tilde Ravn" \
  --lift "bench press" --with "feet up" --chart docs/charts/max_history.svg >/dev/null
