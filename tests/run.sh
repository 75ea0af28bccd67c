#!/bin/sh
# SPDX-License-Identifier: MIT
#
# Installs what is missing, builds everything with its tests and runs them all.
set -eu
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
build=$top/build-tests

sh "$top/tests/install_missing.sh" build test
cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DLOOPLEDGER_DEV=ON
cmake --build "$build"
ctest --test-dir "$build" --output-on-failure -j "$(nproc)"
