"""Sentences for the reports: how a figure is told, and what is said of it when the chart has spoken. A dossier uses
each at most once."""

# By measure: {a} and {b} are counts, {pa} and {pb} the two kinds of snap.
FIGURES = {
    "on-target": [
        "{Pa}, {a} throws on target; {pb}, {b}.",
        "The ball was where it had to be on {a} {pa} and on {b} {pb}.",
        "On target {a} {pa}, {b} {pb}.",
        "{Pa} the chart has {a} on target, {pb} {b}.",
    ],
    "pass-success": ["The play worked on {a} {pa}, on {b} {pb}."],
    "run-success": ["{Pa}, {a} carries did their work; {pb}, {b}.", "Enough was gained on {a} {pa}, on {b} {pb}."],
    "none-or-loss": [
        "{Pa}, {a} came to nothing or less; {pb}, {b}.",
        "Stopped for nothing on {a} {pa}, on {b} {pb}.",
    ],
    "falls-forward": ["{Pa} he finished {a} going forward, {pb} {b}."],
    "reps-held": [
        "{Pa} he held {a}; {pb}, {b}.",
        "Held: {a} {pa}, {b} {pb}.",
        "Not beaten on {a} {pa}; {pb} the count is {b}.",
        "{Pa}, {a} reps held, and {b} {pb}.",
    ],
    "run-reps-won": [
        "{Pa} he won {a} blocks, {pb} {b}.",
        "Blocks won: {a} {pa}, {b} {pb}.",
        "The chart has {a} won {pa}, {b} {pb}.",
        "{Pa}, {a} won; {pb}, {b}.",
    ],
    "landed-rate": ["{Pa} he found his man on {a}, {pb} on {b}."],
    "open-rate": [
        "{Pa} he was open on {a} routes, {pb} on {b}.",
        "A step or better on {a} {pa}; {pb}, on {b}.",
        "Open on {a} {pa}, on {b} {pb}.",
        "{Pa}, {a} open; {pb}, {b}.",
    ],
    "hands-rate": [
        "{Pa} he caught {a}, {pb} {b}.",
        "Caught: {a} {pa}, {b} {pb}.",
        "Of balls he could catch, {a} {pa} and {b} {pb}.",
    ],
    "rush-won": [
        "{Pa} he won {a}, {pb} {b}.",
        "Wins: {a} {pa}, {b} {pb}.",
        "Rushes won, {pa}: {a}; {pb}: {b}.",
    ],
    "disrupted": ["The passer felt {a} {pa} and {b} {pb}.", "Felt by the passer: {a} {pa}, {b} {pb}."],
    "gap-kept-rate": [
        "{Pa} he was where the call puts him on {a}, {pb} on {b}.",
        "{Pa}, {a} gaps kept; {pb}, {b}.",
        "The gap was kept on {a} {pa}, on {b} {pb}.",
    ],
    "held-ground": [
        "{Pa} he gave nothing on {a}, {pb} on {b}.",
        "Ground kept: {a} {pa}, {b} {pb}.",
        "{Pa}, {a} held; {pb}, {b}.",
    ],
    "tight-rate": [
        "{Pa} he was in phase or better on {a}, {pb} on {b}.",
        "In phase on {a} {pa}; {pb}, on {b}.",
        "{Pa} the chart gives him {a} in phase, {pb} {b}.",
        "{Pa}, {a}; {pb}, {b}, both counted as in phase or on top.",
    ],
    "found-ball": ["{Pa} he found {a}, {pb} {b}."],
    "tackle-made": ["Of the tackles he had a chance at he made {a} {pa}, {b} {pb}.", "{Pa}, {a} made; {pb}, {b}."],
    "key-right-all": ["His key was right on {a} {pa}, on {b} {pb}."],
    "made": ["Made: {a} {pa}, {b} {pb}.", "{Pa} he made {a}, {pb} {b}."],
    "pure-strike": ["{Pa}, {a} struck clean; {pb}, {b}.", "Struck clean: {a} {pa}, {b} {pb}."],
    "touchback-rate": ["{Pa}, {a} kickoffs were touchbacks; {pb}, {b}."],
    "return-denied": ["Nothing came back on {a} {pa}, on {b} {pb}."],
    "aim-rate": ["{Pa} he hit the called side on {a}, {pb} on {b}."],
    "on-rate": [
        "On the hands: {a} {pa}, {b} {pb}.",
        "{Pa} the snap was on the hands on {a}, {pb} on {b}.",
        "{Pa}, {a} on the hands; {pb}, {b}.",
    ],
    "clean-catch": ["Caught clean: {a} {pa}, {b} {pb}."],
    "right-choice": ["{Pa} he chose right on {a}, {pb} on {b}."],
    "first-man-beat": ["{Pa} he beat the first man on {a}, {pb} on {b}."],
}

VERDICTS = {
    "borne-out": [
        "Luck does not make a gap like that.",
        "That is enough snaps to say so.",
        "It was written from three clips, and the whole chart agrees with them.",
        "The other side of the count is just as plain, so we keep the claim as it stands.",
        "No game carries it alone; it is there in each of them.",
        "We went back for the snaps against it and found few.",
        "It is the first thing a coordinator will see, and he will be right.",
        "Size of sample is no longer the question here.",
        "The cross-checker was asked to find the opposite and did not.",
    ],
    "leaning": [
        "It leans the right way and is not settled.",
        "Two more games would tell; until then it is an impression with a count behind it.",
        "The direction is right. The size of it is anybody’s guess.",
        "We believe it and cannot prove it.",
        "Not more than a lean, and graded as one.",
        "A few snaps the other way would take it off the page.",
        "It fits what was seen live; the count alone would not carry it.",
        "Read it as a question for the next man who goes.",
        "The gap is smaller than the film makes it look.",
        "The chart is on our side, but only just.",
        "Kept because it points one way in most of the games.",
        "That could still be luck, and we say so.",
        "Enough to ask his coach about; not enough to grade on.",
    ],
    "leaning-against": [
        "If anything the chart points the other way, and the claim is on notice.",
        "The clips stuck; the count does not follow them.",
        "We thought so in September. The snaps since then do not help it.",
        "It stays until the next filing, so that somebody looks again.",
        "Seen live it was plain. Charted it is not there.",
        "Nothing in the count supports what the eye remembered.",
        "Left standing as a warning to ourselves.",
        "The snaps that made us write it were the loud ones.",
    ],
    "contradicted": [
        "The chart says the opposite, and there are snaps enough to believe the chart. The claim stays so that nobody files it again.",
        "This was in every report on him, ours among them. It is wrong.",
        "The count turns it round. We leave it here, struck by its own evidence.",
    ],
    "too-few": [
        "Too few to say anything; it is a note to whoever goes next.",
        "That is no sample. It is on the list because we shall be asked.",
        "A handful of snaps, kept as a handful.",
        "We would need a season of these, and he gave us an afternoon’s worth.",
        "Nobody should lean on so few.",
    ],
}

# {c} is the snap that shows it best, {x} one that speaks against.
POINTERS = [
    "The clearest is {c}.",
    "Begin with {c}.",
    "{c} is the one to show a coach.",
    "See {c}; then, to be fair, {x}.",
    "It is all in {c}.",
    "Against it stands {x}.",
    "{c} shows it in one rep, and {x} shows the other side.",
    "Watch {c} twice.",
    "The snap to argue over is {x}.",
    "Put {c} beside {x}.",
]

# {o} is the opponent against whom most of it was seen.
WHERE = [
    "{o} saw the most of it.",
    "Most of it is from the {o} film.",
    "The {o} game is the one to put on.",
    "It was plainest against {o}.",
    "Whoever has time for one game should take {o}.",
    "More of it came against {o} than in any other game.",
    "{o} went looking for it.",
    "The notes from {o} are full of it.",
]

# {s} is the count over all of the measure's snaps.
OVER_ALL = [
    "Over all his snaps of the kind it is {s}.",
    "All told it is {s}.",
    "The whole of it, for comparison: {s}.",
    "With these counted in, it is {s} over everything.",
]
