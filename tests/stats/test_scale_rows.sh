#!/usr/bin/env bash
# Scales with players row by row, made from the open tables of combine results where these are (TAPEBOUND_DATA, else ../shared/data):
# percentiles and nearest players of a made-up quarterback against values worked out apart from this program, in R.
set -eu
B=${B:-build} data=${TAPEBOUND_DATA:-../shared/data}
export TAPEBOUND_SHARE=${TAPEBOUND_SHARE:-$PWD}
[ -e "$data/combine.csv" ] || { echo "skipped: no combine.csv in $data"; exit 77; }
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
"$B/tools/make_scales" --rows "$data" "$folder" >"$folder/left-out"
sed 's|</house>|<scale profile="quarterback" href="quarterback.xml"/></house>|' templates/houses/plain.xml >"$folder/house.xml"
"$B/tapebound" stats tests/stats/rows/quarterback.xml --house "$folder/house.xml" --format json >"$folder/stats.json"
python3 - "$folder/stats.json" <<'PYTHON'
import json, sys
stats = json.load(open(sys.argv[1]))
percentiles = {m['kind']: (m['percentile'], m['n']) for m in stats['measurables']}
wrong = []
def near(what, value, wanted, tolerance):
    if value is None or abs(value - wanted) > tolerance: wrong.append(f'{what}: {value}, not {wanted}')
near('height, 351 below of 416', percentiles['height'][0], 84.375, 1e-9)
near('rows with a height', percentiles['height'][1], 416, 0)
near('forty, turned', percentiles['forty'][0], 100 - 46.819, 5e-4)
nearest = [('2539', 0.29957), ('3466', 0.74498), ('5171', 0.79535), ('2867', 0.90384), ('4954', 0.94434)]
found = [(c['id'], c['distance']) for c in stats['comparables']]
if [c[0] for c in found] != [c[0] for c in nearest]: wrong.append(f'nearest: {found}')
for (name, distance), (_, wanted) in zip(found, nearest): near('distance of ' + name, distance, wanted, 1e-5)
if wrong: sys.exit('\n'.join(wrong))
PYTHON
