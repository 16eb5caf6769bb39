# Completion of tapebound for fish.
set -l commands check explain compile stats import help
complete -c tapebound -n "not __fish_seen_subcommand_from $commands" -f -l version -d 'print the version'
complete -c tapebound -n "not __fish_seen_subcommand_from $commands" -f -a check -d 'find what is wrong with dossiers'
complete -c tapebound -n "not __fish_seen_subcommand_from $commands" -f -a explain -d 'tell what a rule finds, why, and how to mend it'
complete -c tapebound -n "not __fish_seen_subcommand_from $commands" -f -a compile -d 'set dossiers as PDF'
complete -c tapebound -n "not __fish_seen_subcommand_from $commands" -f -a stats -d 'print the figures of dossiers'
complete -c tapebound -n "not __fish_seen_subcommand_from $commands" -f -a import -d 'make a dossier of a table of snaps'
complete -c tapebound -n "not __fish_seen_subcommand_from $commands" -f -a help -d 'show the commands, or the options of one'
complete -c tapebound -s h -l help -d 'show the options'
complete -c tapebound -n '__fish_seen_subcommand_from check compile stats import' -r -s H -l house -d 'the house file'
complete -c tapebound -n '__fish_seen_subcommand_from check compile stats' -s s -l strict -d 'warnings count as errors'
complete -c tapebound -n '__fish_seen_subcommand_from check' -x -s f -l format -a 'text json' -d 'how findings are printed'
complete -c tapebound -n '__fish_seen_subcommand_from check' -s l -l list-rules -d 'print every rule'
complete -c tapebound -n '__fish_seen_subcommand_from stats' -x -s f -l format -a 'text json csv' -d 'how the figures are printed'
complete -c tapebound -n '__fish_seen_subcommand_from compile import' -r -s o -l output -d 'what is written'
complete -c tapebound -n '__fish_seen_subcommand_from compile' -x -s L -l layout -a 'full brief cards cross-check form' -d 'which layout'
complete -c tapebound -n '__fish_seen_subcommand_from compile' -x -l omit -d 'a copy without parts' \
    -a 'personal medical front measurables figures strengths concerns key-snaps grades watch cross background snap-log clips audit methods glossary'
complete -c tapebound -n '__fish_seen_subcommand_from compile' -x -s d -l dump -a 'model stats story pages' -d 'print a stage instead'
complete -c tapebound -n '__fish_seen_subcommand_from import' -r -s m -l map -d 'which column means what'
complete -c tapebound -n '__fish_seen_subcommand_from import' -x -s w -l where -d 'only rows for which this holds'
complete -c tapebound -n '__fish_seen_subcommand_from explain' -f -a '(tapebound check --list-rules | string split -f 1 " ")'
complete -c tapebound -n '__fish_seen_subcommand_from help' -f -a "$commands"
