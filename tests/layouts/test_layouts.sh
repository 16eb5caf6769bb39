#!/usr/bin/env bash
# Every layout over dossiers of every shape: readable aloud by the rules, on as many pages as it promises, and without what a
# copy leaves out. Prints "pass NAME" or "fail NAME: what".
set -u
export LC_ALL=C.UTF-8 TAPEBOUND_SHARE=$PWD
B=${B:-build}
T=$(realpath "$B/tapebound")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
command -v pdfinfo >/dev/null && command -v qpdf >/dev/null || { echo "skip layouts: no poppler or no qpdf here"; exit 0; }

result() { # name fault: empty when there is none
    if [ -z "$2" ]; then echo "pass $1"; else echo "fail $1: $2"; fi
}

pages() {
    pdfinfo "$1" | sed -n 's/^Pages: *//p'
}

shape() { # name option…: a dossier of that shape
    local name=$1
    shift
    python3 tests/compile/make_dossier.py "$work/$name.says" "$@" >"$work/$name.xml"
}

# In the order of the page, as a screen reader goes: each line of the arguments after the one before it.
reads() { # file words…
    local file=$1 word
    shift
    pdfinfo -struct-text "$file" 2>/dev/null | tr -d '"' >"$work/aloud"
    local from=1 at
    for word in "$@"; do
        at=$(tail -n +"$from" "$work/aloud" | grep -n -m1 -F "$word" | cut -d: -f1)
        [ -n "$at" ] || { echo "'$word' is not read, or too early"; return; }
        from=$((from + at))
    done
}

shape no-snaps --measurables
shape two-snaps --games 1 --snaps 2
shape many --games 10 --snaps 70 --claims 3 --measurables
shape claims --games 4 --snaps 40 --claims 12 --measurables
shape long --games 2 --snaps 20 --claims 4 --measurables --long
demo=(dossiers/{vashti,sparse,dordic-ohashi,tessaly,kelechi-strand}.xml)
endless=Ka‘anapaliokeanuenuemakakehau # a name with no place to break, which is told; that file is looked at for its pages
shapes=("${demo[@]}" "$work"/no-snaps.xml "$work"/two-snaps.xml "$work"/many.xml "$work"/claims.xml "$work"/long.xml)
for layout in full brief cross-check cards form; do
    mkdir "$work/$layout"
    said=$($T compile -L $layout -o "$work/$layout" "${shapes[@]}" 2>&1 |
        grep -e 'error:' -e page-overfull | grep -v "$endless")
    result "$layout" "$said"
    result "$layout-aloud" "$("$B"/tests/pdf/test_accessible "$work/$layout"/*.pdf | grep -v 'keeps the rules')"
done
for file in "$work"/brief/*.pdf; do
    result "brief-$(basename "$file" .pdf)" "$([ "$(pages "$file")" -le 2 ] || echo "$(pages "$file") pages")"
done
result front-alone "$(pdftotext -f 2 -l 2 "$work/full/vashti.pdf" - | grep -x 'How big')"
result full-order "$(reads "$work/full/vashti.pdf" 'Tobin Vashti' 'Bottom line' 'Why, and why not' 'How big' 'As measured' \
    'The measures' Strengths Concerns Grades 'Two charters' 'Snap log' Clips Audit Methods Glossary)"

# ---- several dossiers in one document ----
$T compile -L cards -o "$work/wall.pdf" "${demo[@]}" "$work/claims.xml" "$work/long.xml" 2>/dev/null
result wall "$([ "$(pages "$work/wall.pdf")" = 2 ] || echo "$(pages "$work/wall.pdf") pages")"

# ---- copies that leave something out ----
copy() { # parts
    $T compile -H tests/visual/house.xml -o "$work/copy.pdf" --omit "$1" tests/visual/player.xml 2>&1 | grep error:
    pdftotext "$work/copy.pdf" - | tr -s '\n\f' ' ' >"$work/copy.txt"
}
holds() {
    grep -q -F "$1" "$work/copy.txt"
}
copy background
result without-background "$(holds 'Background left out of this copy.' || echo 'the foot does not say so')"
result no-notes "$(holds ankle || holds Saturdays && echo 'notes are there')"
copy personal,medical
result without-notes "$(holds 'Personal notes and medical notes left out of this copy.' || echo 'the foot does not say so')"
result notes-are-out "$(holds ankle || holds Saturdays || holds 'for club medical staff' && echo 'notes are there')"
result history-stays "$(holds Łąkowo || echo 'the history is not there')"
copy snap-log
result without-log "$(holds 'Snap log left out of this copy.' || echo 'the foot does not say so')"
$T compile -o "$work/none.pdf" --omit snaplog dossiers/sparse.xml 2>"$work/said"
result misspelt "$([ $? = 2 ] && grep -q "did you mean 'snap-log'" "$work/said" || cat "$work/said")"

# ---- film ----
$T compile -H tests/visual/house.xml -o "$work/film.pdf" tests/visual/player.xml 2>/dev/null
qpdf --qdf --object-streams=disable "$work/film.pdf" "$work/film.qdf"
result film-link "$(grep -a -q 'https://film.example/2031/film/wk5-side.mp4#t=[0-9.]*,[0-9.]*)' "$work/film.qdf" ||
    echo 'no link to a stretch of film')"
result no-film "$(grep -a -q 'film.example' "$work/full/dordic-ohashi.pdf" && echo 'a link without a server')"
