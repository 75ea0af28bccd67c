#!/bin/sh
# SPDX-License-Identifier: MIT
#
# Makes the pictures of the README from the example plan: prints the invented club night, logs one
# motor's break-in and a day's windings, prints bag label and field card, and turns first pages into
# small grey pictures in examples/pictures. To be run again after a change of a layout.
set -eu
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
program=$top/build/loopledger
pictures=$top/examples/pictures
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
records=$work/records

sh "$top/tests/install_missing.sh" build example
cmake -S "$top" -B "$top/build" -G Ninja -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build "$top/build" --target loopledger

"$program" print "$top/examples/club-night.toml" --out "$work" --records "$records"
log() { "$program" log "$@" --records "$records" >/dev/null 2>&1; }
log QU-01-Z weighed washed 1.469 --at 2026-02-05T19:10:00Z
log QU-01-Z tied loop="291 mm" --at 2026-02-05T19:30:00Z
log QU-01-Z break_in step=1 loop_after="300 mm" --at 2026-02-05T20:00:00Z
log QU-01-Z wound turns=1050 torque="41 gf.cm" end=stopped \
  pairs="1050: 41 gf.cm, 1000: 27 gf.cm, 900: 14 gf.cm, 700: 10.5 gf.cm, 400: 8 gf.cm" \
  temperature="18 C" --at 2026-02-12T18:00:00Z
"$program" label QU-01-Z --labels roll-62x29-300dpi --out "$work/bag" --records "$records"
"$program" card QU-01-Z --winder-ratio 15 --out "$work" --records "$records"

mkdir -p "$pictures"
picture() { # NAME FILE DPI PAGE [PIXELS OF HEIGHT]
  pdftoppm -gray -r "$3" -f "$4" -l "$4" -x 0 -y 0 -H "${5:-0}" -png -singlefile "$2" \
    "$pictures/$1"
}
picture cut-sheet "$work/cut-sheet.pdf" 60 1
picture weighing "$work/cut-sheet.pdf" 60 2
picture break-in "$work/break-in.pdf" 60 1
picture labels "$work/labels.pdf" 60 1 270
picture bag "$work/bag/labels.pdf" 150 1
picture card "$work/card.pdf" 70 1 420
ls -l "$pictures"
