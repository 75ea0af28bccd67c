#!/bin/sh
# SPDX-License-Identifier: MIT
#
# Builds the program, prints the club night of club-night.toml into examples/out, and reads the
# first bag label back from a picture, as a phone would. Running it again does no harm.
set -eu
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
out=$top/examples/out
program=$top/build/loopledger

sh "$top/tests/install_missing.sh" build example
cmake -S "$top" -B "$top/build" -G Ninja -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build "$top/build" --target loopledger

"$program" print "$top/examples/club-night.toml" --out "$out" --records "$out/records"

"$program" card qu1 mi1 br1 --winder-ratio 15 --out "$out" --records "$out/records"

# The upper left 80 x 45 mm of the first page at 300 dpi hold the first label.
pdftoppm -r 300 -f 1 -l 1 -x 0 -y 0 -W 945 -H 531 -png -singlefile \
  "$out/labels.pdf" "$out/first-label"
echo
echo "The first label, read back from its picture:"
"$program" scan "$out/first-label.png" --records "$out/records"

cat <<END

What there is to see, in $out:
  cut-sheet.pdf    for the bench: what to fetch, what to cut, the windows of the scale
  break-in.pdf     steps, turns, torque and blanks for what was read
  labels.pdf       slips for the bags; first-label.png is the one that was read back
  card.pdf         for the flying floor: how far to wind, the torque curve, blanks for the day
  records          one file a motor; try: build/loopledger show qu1 --records examples/out/records
END
