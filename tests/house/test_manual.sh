#!/usr/bin/env bash
# The manual and the completions know every command and option that the program's help names, and no other.
set -u
export LC_ALL=C.UTF-8 TAPEBOUND_SHARE=$PWD
T=${B:-build}/tapebound
manual=$(mandoc -T utf8 src/tapebound.1 | sed "s|.\x08||g")
commands=$("$T" --help | sed -n 's/^  \([a-z]*\) .*/\1/p')
options=$(for command in $commands; do "$T" help "$command" | grep -oE '^ +(-[A-Za-z], )?--[a-z-]+'; done | grep -oE '[-][-][a-z-]+' | sort -u)

holds() { # what, where: the lines of standard input, each in a text
    local missing=0 line
    while read -r line; do
        grep -qF -- "$line" <<<"$2" || { echo "fail $1: it has no '$line'"; missing=1; }
    done
    [ "$missing" = 1 ] || echo "pass $1"
}

holds manual-commands "$manual" <<<"$commands"
holds manual-options "$manual" <<<"$options"
holds help-options "$options --version" < <(grep -oE '[-][-][a-z]+(-[a-z]+)*' <<<"$manual" | sort -u)
for file in src/completions/*; do
    text=$(sed 's/-l \([a-z-]*\)/--\1/g' "$file")
    holds "${file##*/}-commands" "$text" <<<"$commands"
    holds "${file##*/}-options" "$text" <<<"$options"
done
bash -n src/completions/tapebound.bash && echo "pass bash-reads-it" || echo "fail bash-reads-it"

lint=$(mandoc -T lint -W warning src/tapebound.1)
[ -z "$lint" ] && echo "pass manual-lint" || echo "fail manual-lint: $lint"

# What bash offers.
offers() { # name, wanted, words…
    local name=$1 wanted=$2
    shift 2
    COMP_WORDS=("$@") COMP_CWORD=$(($# - 1))
    _tapebound
    [ "${COMPREPLY[*]}" = "$wanted" ] && echo "pass $name" || echo "fail $name: ${COMPREPLY[*]}"
}
. src/completions/tapebound.bash
offers offers-commands "compile" tapebound comp
offers offers-options "--strict" tapebound check --st
offers offers-stages "stats story" tapebound compile --dump st
