#!/bin/sh
# SPDX-License-Identifier: MIT
#
# expect_failure.sh FILE COMPILER FLAGS...
#
# Passes when the compiler refuses FILE for the reason that its "// expect:" line names (either of
# the patterns between " | ": compilers word it differently). A file without that line must
# compile.
set -u
file=$1
shift

said=$(LC_ALL=C "$@" -fsyntax-only "$file" 2>&1)
result=$?
expected=$(sed -n 's|^// expect: ||p' "$file")

if [ -z "$expected" ]; then
  [ "$result" -eq 0 ] && exit 0
  printf '%s\n%s\n' "must compile, but the compiler said:" "$said"
  exit 1
fi
if [ "$result" -eq 0 ]; then
  echo "must not compile, but it does: $file"
  exit 1
fi

first=${expected%% | *}
second=${expected##* | }
for pattern in "$first" "$second"; do
  if printf '%s\n' "$said" | grep -q -e "error: .*$pattern"; then
    exit 0
  fi
done
printf '%s\n%s\n%s\n' "refused, but not for the expected reason: $expected" "it said:" "$said"
exit 1
