#!/bin/sh
# SPDX-License-Identifier: MIT
#
# other_system.sh SUITE [COMPILER...]
#
# Builds this tree and runs all its tests and its example on another Debian, such as trixie, with
# each of the compilers [g++ clang++]. Needs root, debootstrap and a network for the packages; the
# build itself has none. The system is kept in a folder (LOOPLEDGER_TREES) for the next time.
set -eu
[ $# -gt 0 ] || {
  sed -n '4,8s/^# \{0,1\}//p' "$0" >&2
  exit 2
}
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
suite=$1
shift
[ $# -gt 0 ] || set -- g++ clang++
. "$top/tests/tree.sh"

make_tree "$suite" "$suite"
source=$trees/$suite/usr/src/loopledger
find "$source" -mindepth 1 -maxdepth 1 ! -name 'build*' -exec rm -rf {} + 2>/dev/null || mkdir -p "$source"
(cd "$top" && git ls-files -z --cached --others --exclude-standard) |
  tar -C "$top" --null --ignore-failed-read -T - -c | tar -C "$source" -x --no-same-owner
in_tree "$suite" sh /usr/src/loopledger/tests/install_missing.sh build test example
for compiler in "$@"; do
  case $compiler in
    g++) ;;
    clang++*) in_tree "$suite" sh -c "command -v $compiler >/dev/null || {
        apt-get update -q && apt-get install -q -y --no-install-recommends clang${compiler#clang++}; }" ;;
    *) in_tree "$suite" sh -c "command -v $compiler >/dev/null || {
        apt-get update -q && apt-get install -q -y --no-install-recommends $compiler; }" ;;
  esac
done
in_tree_offline "$suite" true
chroot "$trees/$suite" chown -R builder: /usr/src/loopledger

failed=
for compiler in "$@"; do
  started=$(date +%s)
  in_tree_offline "$suite" sh -euc "cd /usr/src/loopledger
    $compiler --version | head -n 1
    cmake -S . -B build-$compiler -G Ninja -DCMAKE_BUILD_TYPE=Debug -DLOOPLEDGER_DEV=ON \
      -DCMAKE_CXX_COMPILER=$compiler
    nice cmake --build build-$compiler -j $(nproc)
    nice ctest --test-dir build-$compiler --output-on-failure -j $(nproc)" || failed="$failed $compiler"
  echo "== $suite, $compiler: $(($(date +%s) - started)) s"
done
in_tree_offline "$suite" sh -euc 'cd /usr/src/loopledger
  sh examples/run.sh && build/loopledger --version' || failed="$failed example"
[ -z "$failed" ] || {
  echo "FAILED on $suite:$failed" >&2
  exit 1
}
echo "All passed on $suite."
