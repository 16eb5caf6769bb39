#!/usr/bin/env bash
# The worked positions of DEVELOPERS.md are what the program accepts: each is taken out and checked, and a dossier of the
# one that extends another is compared with that one's population.
set -eu
B=${B:-build}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp -R templates "$folder/templates"
ln -s "$PWD/fonts" "$folder/fonts"

awk -v folder="$folder" '
    /^### A position, worked/ { inside = 1 }
    /^## / { inside = 0 }
    inside && /^```xml/ { name = ""; text = ""; taking = 1; next }
    taking && /^```/ { taking = 0; print text > (folder "/templates/profiles/" name ".xml"); print name; next }
    taking {
        if (!name && match($0, /id="[a-z-]+"/)) name = substr($0, RSTART + 4, RLENGTH - 5)
        text = text $0 "\n"
    }' DEVELOPERS.md >"$folder/names"

grep -qx holder "$folder/names" && grep -qx centre "$folder/names" || { echo 'the worked positions are not there'; exit 1; }
for name in $(cat "$folder/names"); do
    said=$(TAPEBOUND_SHARE=$folder "$B/tapebound" check --strict "$folder/templates/profiles/$name.xml" 2>&1) || { echo "$said"; exit 1; }
    [ "$said" = "1 file: 0 errors, 0 warnings" ] || { echo "$said"; exit 1; }
done

sed 's/profile="interior-line"/profile="centre"/; s/<game id="g1"/<measurables><measurable kind="height" value="6033"\/><\/measurables>&/' \
    tests/templates/positions/interior-line.xml >"$folder/centre.xml"
TAPEBOUND_SHARE=$folder "$B/tapebound" stats "$folder/centre.xml" >"$folder/stats"
grep -q '^ *height' "$folder/stats" || { echo 'no height among the figures'; cat "$folder/stats"; exit 1; }
grep 'height' "$folder/stats" | grep -q ' of [0-9]' || { echo 'the height has no population'; grep height "$folder/stats"; exit 1; }
