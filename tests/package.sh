#!/bin/sh
# SPDX-License-Identifier: MIT
#
# package.sh [SUITE]
#
# Builds the Debian package in build-package. With a suite, such as bookworm, installs it in a bare
# system of that suite (root, debootstrap and a network for the packages are needed) and uses it
# there as an ordinary user.
set -eu
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
build=$top/build-package

sh "$top/tests/install_missing.sh" build package
# Debian's own flags: hardened, and without the paths of this machine.
flag() { (cd "$top" && DEB_BUILD_MAINT_OPTIONS=hardening=+all dpkg-buildflags --get "$1"); }
rm -f "$build"/*.deb
cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_UNITY_BUILD=ON -DCMAKE_INSTALL_PREFIX=/usr \
  -DCMAKE_CXX_FLAGS="$(flag CPPFLAGS) $(flag CXXFLAGS)" -DCMAKE_EXE_LINKER_FLAGS="$(flag LDFLAGS)"
cmake --build "$build"
(cd "$build" && cpack -G DEB)
package=$(ls "$build"/loopledger_*.deb)
dpkg-deb --info "$package" | grep -E '^ (Package|Version|Depends|Installed-Size)'
if command -v lintian >/dev/null 2>&1; then
  lintian --allow-root "$package"
fi
[ $# -gt 0 ] || exit 0

. "$top/tests/tree.sh"
suite=$1
bare=bare-$suite
make_tree "$bare" "$suite"
cp "$package" "$trees/$bare/srv/loopledger.deb"
in_tree "$bare" sh -euc 'apt-get update -q
  apt-get install -q -y --no-install-recommends --reinstall /srv/loopledger.deb'
in_tree_offline "$bare" sh -euc 'rm -rf ~/night && mkdir ~/night && cd ~/night
  loopledger --version
  loopledger new night.toml
  loopledger check night.toml
  loopledger print night.toml --labels roll-62x29-300dpi'
# The reader of PDFs is this machine's: the bare one has none.
night=$trees/$bare/srv/builder/night
pdftoppm -r 300 -f 1 -l 1 -png -singlefile "$night/out/labels.pdf" "$night/label"
in_tree_offline "$bare" sh -euc 'cd ~/night && loopledger scan label.png'
echo "Installed and used on a bare $suite."
