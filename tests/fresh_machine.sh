#!/usr/bin/env bash
# Both lines of the README on a machine with nothing installed, and the demo on one without Pango.
#
#   sudo tests/fresh_machine.sh [FOLDER]
#
# Makes two minimal Debian roots in FOLDER (a new temporary one if none is named; some 5 GB, and a
# quarter of an hour), puts what is committed here into each, and runs the lines there as they stand
# in the README. Needs debootstrap. A mirror other than Debian's own is named by MIRROR=…; the
# settings and certificates of this machine's pip are copied into the roots.
set -euo pipefail
cd "$(dirname "$0")/.."
[ "$(id -u)" = 0 ] || { echo "This makes roots of its own: run it with sudo." >&2; exit 2; }
command -v debootstrap >/dev/null || { echo "First: apt-get install debootstrap" >&2; exit 2; }

place=${1:-$(mktemp -d)}
mkdir -p "$place"
log=$place/log.txt
: >"$log"
echo "Roots and log.txt are in $place"

trap 'umount "$place"/*/proc "$place"/*/dev/pts 2>/dev/null || true' EXIT

settle() { # ROOT: the project, and what this machine's pip was told
  local root=$1 told
  mkdir -p "$root/rigprimer" "$root/etc/ssl"
  git archive HEAD | tar x -C "$root/rigprimer"
  for told in /etc/resolv.conf /etc/hosts /etc/pip.conf /etc/xdg/pip; do
    if [ -e "$told" ]; then
      mkdir -p "$root$(dirname "$told")"
      cp -rL "$told" "$root$(dirname "$told")/"
    fi
  done
  # Under a name of its own: the root's package of certificates writes the usual one.
  cp -L "${PIP_CERT:-/etc/ssl/certs/ca-certificates.crt}" "$root/etc/ssl/certificates.pem"
  mount -t proc proc "$root/proc"
  mount -t devpts -o newinstance,ptmxmode=0666 devpts "$root/dev/pts" # terminals
}

inside() { # ROOT COMMAND: run it there
  env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LANG=C.UTF-8 DEBIAN_FRONTEND=noninteractive \
    PIP_CERT=/etc/ssl/certificates.pem \
    chroot "$1" bash -c "cd /rigprimer; $2" >>"$log" 2>&1
}

tell() { # WORDS ROOT COMMAND: run it, and say how it went and how long it took
  local begun=$SECONDS code=0
  inside "$2" "$3" || code=$?
  echo "$1: exit $code, $((SECONDS - begun)) s"
  if [ "$code" != 0 ]; then tail -n 40 "$log"; exit 1; fi
}

mapfile -t lines < <(grep '^S=\$(command -v sudo); ' README.md)
[ "${#lines[@]}" = 2 ] || { echo "README.md should have two such lines, it has ${#lines[@]}." >&2; exit 1; }

# shellcheck disable=SC2086  # no mirror named: no word
debootstrap --variant=minbase bookworm "$place/bare" ${MIRROR:-} >>"$log" 2>&1
cp -a "$place/bare" "$place/without-pango"
settle "$place/bare"
settle "$place/without-pango"

tell "README, first line" "$place/bare" "${lines[0]}"
tell "README, second line" "$place/bare" "${lines[1]}"
grep -E '[0-9]+ passed' "$log" | tail -n 1

pango="libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 "
tell "Without Pango" "$place/without-pango" "${lines[0]//"$pango"/}"
pages=$(find "$place/without-pango/rigprimer/build/demo" -name '*.html' | wc -l)
pdfs=$(find "$place/without-pango/rigprimer/build/demo" -name '*.pdf' | wc -l)
echo "Without Pango the demo wrote $pages pages for the browser and $pdfs PDF files"
[ "$pages" -gt 0 ] && [ "$pdfs" = 0 ]
