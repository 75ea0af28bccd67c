#!/bin/sh
# SPDX-License-Identifier: MIT
#
# install_missing.sh GROUP...
#
# Installs the packages of these groups of packages.txt that are not there yet, as root or with
# sudo. When all are there it is done at once and needs no network. On a system without dpkg it
# only names the packages.
set -eu
list=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)/packages.txt

wanted=
for group in "$@"; do
  wanted="$wanted $(sed -n "s/^$group //p" "$list" | tr '\n' ' ')"
done

if ! command -v dpkg-query >/dev/null 2>&1; then
  echo "Not a Debian system: needed here, by their Debian names, are$wanted"
  exit 0
fi

missing=
for package in $wanted; do
  status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true)
  [ "$status" = installed ] || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

echo "Installing$missing"
if [ "$(id -u)" -eq 0 ]; then
  as_root=
elif [ -t 0 ]; then
  as_root=sudo
else
  as_root="sudo -n"
fi
# Word splitting is meant: both hold lists of plain words.
# shellcheck disable=SC2086
{
  $as_root apt-get update -q
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends $missing
}
