#!/usr/bin/env bash
# Files of at most 500 lines, functions of at most 80, half of them of at most 12 and 19 in 20 of at most 40; and no
# word that says that something is missing.
set -u
export LC_ALL=C.UTF-8
sources=$(find src -name '*.[ch]')

long=$(wc -l $sources | awk '$2 != "total" && $1 > 500')
[ -z "$long" ] && echo "pass file-lines" || echo "fail file-lines: $long"

# A function starts with a line that begins in the first column and ends in "{", and ends with "}" there.
lengths=$(awk 'FNR == 1 { start = 0 }
    /^[a-z_A-Z].*\) \{$|^[ ].*\) \{$/ && !start && !/^ *(if|for|while|switch|else|do)/ && !/^(typedef|struct|enum|static const)/ { start = FNR; file = FILENAME }
    /^}/ { if (start) print FNR - start + 1, file ":" start; start = 0 }' $(find src -name '*.c') | sort -n)
count=$(wc -l <<<"$lengths")
at() { sed -n "$((count * $1 / 100 + 1))p" <<<"$lengths" | cut -d ' ' -f 1; }
longest=$(tail -n 1 <<<"$lengths")
[ "${longest%% *}" -le 80 ] && echo "pass function-lines" || echo "fail function-lines: $longest"
[ "$(at 50)" -le 12 ] && [ "$(at 95)" -le 40 ] && echo "pass functions-are-short" ||
    echo "fail functions-are-short: half at $(at 50), 19 in 20 at $(at 95)"

words=$(grep -nE '\b(TODO|FIXME|HACK|STUB)\b' $sources Makefile README.md DEVELOPERS.md)
[ -z "$words" ] && echo "pass nothing-missing" || echo "fail nothing-missing: $words"
