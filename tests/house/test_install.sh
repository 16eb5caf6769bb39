#!/usr/bin/env bash
# What is installed runs from where it stands, and goes away without a trace.
set -u
export LC_ALL=C.UTF-8
unset TAPEBOUND_SHARE MAKEFLAGS MFLAGS MAKELEVEL
B=${B:-build}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
place=(B="$B" DESTDIR="$work/root" PREFIX=/opt/there)

make -s install "${place[@]}" && echo "pass install" || echo "fail install"
T=$work/root/opt/there/bin/tapebound
mv "$work/root" "$work/moved" && T=$work/moved/opt/there/bin/tapebound
(cd "$work" && "$T" compile "$OLDPWD/dossiers/sparse.xml" -o "$work/sparse.pdf" 2>"$work/said" && [ -s "$work/sparse.pdf" ]) &&
    echo "pass installed-compiles" || echo "fail installed-compiles: $(cat "$work/said")"
mv "$work/moved" "$work/root"
make -s uninstall "${place[@]}"
left=$(find "$work/root" -type f)
[ -z "$left" ] && echo "pass uninstall" || echo "fail uninstall: $left"
