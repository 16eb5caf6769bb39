#!/usr/bin/env bash
# Whole compiles: the same bytes twice, files that others can read, dossiers of every shape, and an old file that stays when
# the new one cannot be made. Prints "pass NAME" or "fail NAME: what".
set -u
export LC_ALL=C.UTF-8 TAPEBOUND_SHARE=$PWD
T=$(realpath "${B:-build}/tapebound")
here=tests/compile
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

check() { # name command…: passes when the command does, and says nothing then
    local name=$1
    shift
    if "$@" >"$work/said" 2>&1; then
        echo "pass $name"
    else
        echo "fail $name: $*"
        sed 's/^/    /' "$work/said"
    fi
}

status_is() { # wanted command…
    local wanted=$1 got
    shift
    "$@"
    got=$?
    [ "$got" = "$wanted" ] || echo "status $got, not $wanted"
    [ "$got" = "$wanted" ]
}

fonts_are_whole() { # every font is embedded, a subset, and tells its text
    pdffonts "$1" | awk 'NR > 2 { fonts++; if ($(NF - 4) != "yes" || $(NF - 3) != "yes" || $(NF - 2) != "yes") { print; bad = 1 } }
        END { exit bad || !fonts }'
}

compiles() { # NAME OPTIONS…: makes, compiles and reads a dossier
    local name=$1
    shift
    python3 "$here/make_dossier.py" "$work/$name.says" "$@" >"$work/$name.xml" || return 1
    "$T" compile "$work/$name.xml" -o "$work/$name.pdf" 2>"$work/errors"
    local status=$?
    grep ': error:' "$work/errors"
    [ $status = 0 ] && qpdf --check "$work/$name.pdf" && fonts_are_whole "$work/$name.pdf" &&
        python3 "$here/holds.py" "$work/$name.pdf" "$work/$name.says"
}

warns() { # RULE PROSE: printing the prose gives a warning, and a file all the same
    sed "s|<bottom-line>|&$2|" dossiers/sparse.xml >"$work/warned.xml"
    "$T" compile "$work/warned.xml" -o "$work/warned.pdf" 2>"$work/errors" && qpdf --check "$work/warned.pdf" &&
        grep "^$work/warned.xml:.*: warning: .*\[$1\]" "$work/errors"
}

# The flagship.
flagship=(compile dossiers/vashti.xml --house dossiers/house/harbour.xml -o)
"$T" "${flagship[@]}" "$work/once.pdf" 2>/dev/null
(cd / && "$T" compile "$OLDPWD/dossiers/vashti.xml" --house "$OLDPWD/dossiers/house/harbour.xml" -o "$work/again.pdf" 2>/dev/null)
check same-bytes cmp "$work/once.pdf" "$work/again.pdf"
check qpdf qpdf --check "$work/once.pdf"
check fonts fonts_are_whole "$work/once.pdf"
printf '%s\n' "Tobin Vashti" "Harrow Valley" "Sharper against man than zone" "6 ft 4⅜ in" "g5.53" >"$work/says"
check flagship-text python3 "$here/holds.py" "$work/once.pdf" "$work/says"

# Many files in one run give what each gives alone, so nothing of one stays for the next.
mkdir "$work/many"
"$T" compile dossiers/sparse.xml dossiers/dordic-ohashi.xml dossiers/vashti.xml --house dossiers/house/harbour.xml -o "$work/many" 2>/dev/null
check alone-or-among-others cmp "$work/once.pdf" "$work/many/vashti.pdf"

# Every shape.
check no-snaps compiles no-snaps --measurables
check no-measurables compiles no-measurables --games 1 --snaps 12 --claims 1
check two-snaps compiles two-snaps --games 1 --snaps 2
check one-snap-a-game compiles one-snap-a-game --games 9 --snaps 1
check seven-hundred-snaps compiles seven-hundred --games 10 --snaps 70 --claims 3 --measurables
check one-long-game compiles one-long-game --games 1 --snaps 280
check twelve-claims compiles twelve-claims --games 4 --snaps 40 --claims 12 --measurables
check claims-on-two-snaps compiles claims-on-few --games 1 --snaps 4 --claims 12
check letters-and-signs compiles letters --games 1 --snaps 3 --odd
check overfull-is-told warns page-overfull "<p>$(printf 'Endless%.0s' {1..60})</p>"
check missing-glyph-is-told warns page-glyph "<p>A sign that no font has: 𓀀.</p>"
check long-names compiles long-names --games 2 --snaps 20 --claims 4 --measurables --long

# The old file stays.
echo old >"$work/kept.pdf"
sed 's/<bottom-line>/<bottom-lime>/' dossiers/sparse.xml >"$work/broken.xml"
check broken-source status_is 1 "$T" compile "$work/broken.xml" -o "$work/kept.pdf"
check broken-source-keeps grep -qx old "$work/kept.pdf"
full() { (ulimit -f 8 && exec "$T" compile dossiers/sparse.xml -o "$work/kept.pdf" 2>"$work/errors"); }
check full-disk status_is 2 full
check full-disk-says grep -q "cannot write '$work/kept.pdf': File too large" "$work/errors"
check full-disk-keeps grep -qx old "$work/kept.pdf"
check nothing-left-behind test -z "$(find "$work" -name '.tapebound*')"

# A file system of 64 KiB, where one may be mounted.
if unshare --mount --map-root-user mount -t tmpfs -o size=64k none "$work/many" 2>/dev/null; then
    small() {
        unshare --mount --map-root-user bash -c 'mount -t tmpfs -o size=64k none "$2" && echo old >"$2/vashti.pdf" &&
            "$1" compile dossiers/vashti.xml -o "$2"; echo "status $?"; cat "$2/vashti.pdf"; ls -A "$2"' small "$T" "$work/many" |
            tail -n 3 | tr '\n' ' ' | grep -qx 'status 2 old vashti.pdf '
    }
    check small-file-system small
else
    echo "skipped: no file system can be mounted here"
fi

# A folder that cannot be written to; the superuser can write everywhere.
mkdir "$work/closed" && chmod 555 "$work/closed"
if [ "$(id -u)" != 0 ]; then
    check closed-folder status_is 2 "$T" compile dossiers/sparse.xml -o "$work/closed/x.pdf"
fi
check folder-is-missing status_is 2 "$T" compile dossiers/sparse.xml -o "$work/none/x.pdf"
