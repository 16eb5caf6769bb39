# Completion of tapebound for bash.
_tapebound() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]} words
    COMPREPLY=()
    if [ "$COMP_CWORD" = 1 ]; then
        mapfile -t COMPREPLY < <(compgen -W 'check explain compile stats import help --help --version' -- "$word")
        return
    fi
    case $command,$before in
        check,-f | check,--format) words='text json' ;;
        stats,-f | stats,--format) words='text json csv' ;;
        compile,-d | compile,--dump) words='model stats story pages' ;;
        compile,-L | compile,--layout) words='full brief cards cross-check form' ;;
        compile,--omit) words='personal medical front measurables figures strengths concerns key-snaps grades watch cross background snap-log clips audit methods glossary' ;;
        help,help) words='check explain compile stats import help' ;;
        explain,explain) words=$(tapebound check --list-rules 2>/dev/null | cut -d ' ' -f 1) ;;
    esac
    case $command,$word in
        check,-*) words='--format --list-rules --house --strict --help' ;;
        compile,-*) words='--output --layout --omit --dump --house --strict --help' ;;
        stats,-*) words='--format --house --strict --help' ;;
        import,-*) words='--map --where --output --house --help' ;;
        explain,-* | help,-*) words='--help' ;;
    esac
    mapfile -t COMPREPLY < <(compgen -W "${words:-}" -- "$word")
}
complete -o bashdefault -o default -F _tapebound tapebound
