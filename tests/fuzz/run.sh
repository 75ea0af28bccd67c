#!/bin/sh
# SPDX-License-Identifier: MIT
#
# run.sh SECONDS [TARGET...]: builds the fuzzer with clang and lets it run on each target for so
# long, as many at once as there are cores (JOBS sets another number). The seconds that one input
# may take are the clock's: on a machine that does other things PATIENCE=10 makes them ten times as
# many. Says what each executed and covered; a file that breaks a claim, crashes, hangs or takes too
# much memory is kept in found/TARGET and fails the run. What the fuzzers learn is kept in
# build-fuzz/corpus from run to run. With SEED set, each target does a fixed number of executions
# from that seed instead, and learns nothing from earlier runs: the same tree gives the same answer.
set -eu
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
top=$(CDPATH='' cd -- "$here/../.." && pwd)
build=${BUILD:-$top/build-fuzz}
export here top build

# Bounds: bytes of an input, seconds for one, megabytes in all, megabytes in one piece. They follow
# from what the readers say they take (the sanitizer itself needs about 100 MB):
#   quantity   100 bytes a text          tag     300 bytes
#   plan, templates, record              texts of kilobytes; a copy of them in each fault is none
#   image      64 million pixels: 64 MB grey, twice that with transparency; a JPEG in many passes
#              holds two bytes for each pixel and ink besides
#   scan       40,000 pixels
bounds_of() {
  case $1 in
    quantity | tag) echo 400 10 300 16 ;;
    plan | templates | record) echo 8192 20 500 64 ;;
    image) echo 8192 30 1200 700 ;;
    scan) echo 40001 60 500 64 ;;
    *) return 1 ;;
  esac
}

# Executions with SEED set: some seconds each.
runs_of() {
  case $1 in
    scan) echo 30 ;;
    record) echo 200 ;;
    image) echo 800 ;;
    quantity | plan) echo 3000 ;;
    *) echo 5000 ;;
  esac
}

# Texts of the tree that seed a target beside its own.
seeds_of() {
  case $1 in
    templates) echo "$top/templates/stock $top/templates/layouts" ;;
    record) echo "$top/tests/records/format_v1" ;;
    scan) echo "$here/seeds/image" ;;
  esac
}

# one SECONDS TARGET
one() {
  target=$2
  # shellcheck disable=SC2046 # four numbers
  set -- "$1" $(bounds_of "$target")
  log=$build/fuzz-$target.log
  learnt=$build/corpus/$target
  limit=-max_total_time=$1
  if [ -n "${SEED:-}" ]; then
    learnt=$build/seeded/$target
    limit="-seed=$SEED -runs=$(runs_of "$target")"
    rm -rf "$learnt"
  fi
  mkdir -p "$learnt" "$here/found/$target"
  words=$here/words/$target.dict
  [ -e "$words" ] || words=$here/words/toml.dict
  status=0
  # shellcheck disable=SC2046,SC2086 # folders, options
  ASAN_OPTIONS=quarantine_size_mb=8:detect_stack_use_after_return=1 \
    UBSAN_OPTIONS=print_stacktrace=1 \
    FUZZ_TARGET=$target "$build/tests/fuzz/fuzzer" $limit -max_len="$2" -timeout="$(($3 * ${PATIENCE:-1}))" \
    -rss_limit_mb="$4" -malloc_limit_mb="$5" -dict="$words" -print_final_stats=1 \
    -artifact_prefix="$here/found/$target/" \
    "$learnt" "$here/seeds/$target" "$here/found/$target" $(seeds_of "$target") \
    >"$log" 2>&1 || status=$?
  rmdir "$here/found/$target" 2>/dev/null || true
  executed=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log" | tail -n 1)
  memory=$(sed -n 's/^stat::peak_rss_mb: *//p' "$log" | tail -n 1)
  covered=$(sed -n 's/.* cov: \([0-9]*\) ft: \([0-9]*\) .*/\1 edges, \2 features/p' "$log" | tail -n 1)
  printf '%-10s %10s executions, %s, %s MB: %s\n' "$target" "${executed:-?}" "${covered:-nothing}" \
    "${memory:-?}" "$([ "$status" -eq 0 ] && echo sound || echo FAULT)"
  if [ "$status" -ne 0 ]; then
    grep -v '^#[0-9]*[[:space:]]' "$log" | tail -n 60
    return 1
  fi
}

if [ "${1:-}" = --one ]; then
  one "$2" "$3"
  exit
fi
seconds=${1:?"run.sh SECONDS [TARGET...]"}
shift
[ $# -gt 0 ] || set -- scan image record plan templates tag quantity
for target; do
  bounds_of "$target" >/dev/null || {
    echo "run.sh: there is no target $target" >&2
    exit 2
  }
done

cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_COMPILER=clang++ \
  -DLOOPLEDGER_FUZZ=ON -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=8 >/dev/null
cmake --build "$build" --target fuzzer
printf '%s\n' "$@" | xargs -n 1 -P "${JOBS:-$(nproc)}" sh "$here/run.sh" --one "$seconds"
