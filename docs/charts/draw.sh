#!/bin/sh
# docs/charts/draw.sh - draws the charts of the guides again
#
#   sh docs/charts/draw.sh build/mine      the folder of the build
set -eu
cd -- "$(dirname -- "$0")/../.."
examples=$1/examples

for chart in equations learnt_ratio loaded_bar; do
  "$1/docs/charts/draw_charts" "$chart" >"docs/charts/$chart.svg"
done
"$examples/review_block" examples/data/rowing_club.csv --lifter "Tilde Ravn" \
  --lift "bench press" --with "feet up" --chart docs/charts/max_history.svg >/dev/null

# The sheet of a squad as a phone shows it, and on paper: needs chromium, pdftoppm and ImageMagick.
work=$(mktemp -d)
trap 'rm -r "$work"' EXIT
"$examples/squad_sheet" examples/data/rowing_club.csv --asked examples/data/rowing_today.csv \
  --date 2026-11-27 --spotter --safeties checked --as html --out "$work/sheet.html"
browser="chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --user-data-dir=$work/profile"
$browser --window-size=390,1050 --screenshot="$work/phone.png" "$work/sheet.html" 2>/dev/null
$browser --no-pdf-header-footer --print-to-pdf="$work/sheet.pdf" "$work/sheet.html" 2>/dev/null
pdftoppm -r 90 -f 1 -l 1 -png -singlefile "$work/sheet.pdf" "$work/paper"
for picture in phone paper; do
  convert "$work/$picture.png" -strip +dither -colors 48 "docs/charts/squad_sheet_$picture.png"
done
