#!/bin/sh
# SPDX-License-Identifier: MIT
#
# For other scripts to read in: trees of other Debian systems, as root. Each is a folder with a
# minimal system that debootstrap made, kept for the next time. Nothing stays mounted.
trees=${LOOPLEDGER_TREES:-${TMPDIR:-/var/tmp}/loopledger-trees}

# make_tree NAME SUITE: the tree NAME of that suite, made when it is not there yet.
make_tree() {
  for tool in debootstrap unshare; do
    command -v "$tool" >/dev/null 2>&1 || {
      echo "$tool is needed (packages debootstrap, util-linux)" >&2
      exit 3
    }
  done
  [ "$(id -u)" -eq 0 ] || {
    echo "only root can make and enter the tree of another system" >&2
    exit 3
  }
  [ ! -e "$trees/$1/complete" ] || return 0
  mkdir -p "$trees"
  rm -rf "${trees:?}/$1"
  debootstrap --variant=minbase "$2" "$trees/$1" "${LOOPLEDGER_MIRROR:-http://deb.debian.org/debian}"
  echo force-unsafe-io >"$trees/$1/etc/dpkg/dpkg.cfg.d/unsafe-io" # a tree is easily made again
  touch "$trees/$1/complete"
}

# in_tree NAME COMMAND...: run as root in the tree.
in_tree() {
  name=$1
  shift
  tree=$trees/$name unshare --mount --fork sh -c '
    mount -t proc proc "$tree/proc" && exec chroot "$tree" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin \
      LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"' sh "$@"
}

# in_tree_offline NAME COMMAND...: run as the user `builder` in the tree, without a network.
in_tree_offline() {
  name=$1
  shift
  chroot "$trees/$name" id builder >/dev/null 2>&1 ||
    chroot "$trees/$name" useradd --create-home --home-dir /srv/builder builder
  tree=$trees/$name unshare --mount --net --fork sh -c '
    mkdir -p "$tree/dev/pts" && mount -t devpts -o newinstance,ptmxmode=0666 devpts "$tree/dev/pts" &&
    mount -t proc proc "$tree/proc" && exec chroot --userspec=builder:builder "$tree" env -i \
      PATH=/usr/bin:/bin HOME=/srv/builder LC_ALL=C.UTF-8 "$@"' sh "$@"
}
