#!/usr/bin/env bash
# One page of each kind as poppler draws it, held against a small picture. `tests/visual/test_looks.sh -u` draws the pictures
# anew: look at them before they are committed. Prints "pass NAME" or "fail NAME: what".
set -u
export LC_ALL=C.UTF-8 TAPEBOUND_SHARE=$PWD
T=$(realpath "${B:-build}/tapebound")
here=tests/visual
update=
[ "${1:-}" = -u ] && update=-u
command -v pdftoppm >/dev/null || { echo "skip looks: no poppler here"; exit 0; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
sed 's/paper="letter"/paper="a4"/' templates/layouts/brief.xml >"$work/a4.xml"

look() { # name file page
    local name=$1 said
    pdftoppm -r 50 -gray -singlefile -f "$3" -l "$3" "$2" "$work/$name" &&
        said=$(python3 $here/compare.py $update "$here/$name.png" "$work/$name.pgm" 2>&1) &&
        { echo "pass $name"; return; }
    echo "fail $name: $said"
}

page_of() { # file heading: the page on which the heading stands, by the bookmarks' words in the running head
    local page count
    count=$(pdfinfo "$1" | sed -n 's/^Pages: *//p')
    for ((page = 1; page <= count; page++)); do
        pdftotext -f "$page" -l "$page" "$1" - | grep -qx "$2" && { echo "$page"; return; }
    done
    echo 1
}

compile() { # layout file dossier…
    local layout=$1 out=$2
    shift 2
    $T compile -H $here/house.xml -L "$layout" -o "$out" "$@" 2>/dev/null
}

compile full "$work/full.pdf" $here/player.xml
look front "$work/full.pdf" 1
for part in "The tape in figures" Strengths Grades "Snap log" Clips Methods; do
    name=${part,,}
    look "${name// /-}" "$work/full.pdf" "$(page_of "$work/full.pdf" "$part")"
done
sed '0,/<grades /s//<key-snap snap="g1.3"\/><key-snap snap="g1.8"\/><key-snap snap="g1.12"\/>&/' $here/player.xml >"$work/keys.xml"
compile full "$work/keys.pdf" "$work/keys.xml"
look key-snaps "$work/keys.pdf" "$(page_of "$work/keys.pdf" "Key snaps")"
compile "$work/a4.xml" "$work/brief.pdf" $here/player.xml
look brief-a4 "$work/brief.pdf" 2
compile cross-check "$work/cross.pdf" $here/player.xml
look cross-check "$work/cross.pdf" 1
compile cards "$work/cards.pdf" $here/player.xml tests/visual/bare.xml
look cards "$work/cards.pdf" 1
compile form "$work/form.pdf" $here/player.xml
look form "$work/form.pdf" 1
look codes "$work/form.pdf" 2
compile full "$work/bare.pdf" $here/bare.xml
look bare "$work/bare.pdf" 1
