#!/usr/bin/env bash
# A file includes only what ranks lower or its own folder, and each library is seen only in its own folder.
set -eu
rank() {
    case $1 in
        base) echo 0 ;; source) echo 1 ;; check | stats) echo 2 ;; story) echo 3 ;; typeset) echo 4 ;;
        device) echo 5 ;; pdf) echo 6 ;; feed) echo 1 ;; compile) echo 7 ;; batch) echo 8 ;; main) echo 9 ;;
        *) echo "no rank for $1" >&2; exit 1 ;;
    esac
}
bad=0
while IFS=: read -r file include; do
    folder=${file#src/}
    case $folder in */*) folder=${folder%%/*} ;; main.c | command*) folder=main ;; *) folder=compile ;; esac
    target=${include%%/*}
    case $include in *_table.h) continue ;; */*) ;; command*) target=main ;; *) target=compile ;; esac
    [ "$folder" = "$target" ] && continue
    if [ "$(rank "$target")" -ge "$(rank "$folder")" ]; then
        echo "$file includes $include, which does not rank lower"
        bad=1
    fi
done < <(grep -rn '^#include "' src | sed -E 's/^([^:]*):[0-9]+:#include "([^"]*)".*/\1:\2/')

only() { # pattern folder
    local found
    found=$(grep -rlE "^#include <($1)" src | grep -v "^src/$2/" || true)
    [ -z "$found" ] || { echo "only src/$2 may include <$1>: $found"; bad=1; }
}
only 'libxml/' source
only 'hpdf|hb|libdeflate' pdf
only 'curl/' feed
only 'gsl/' stats
only 'csv\.h' source
only 'qrencode\.h' typeset
exit $bad
