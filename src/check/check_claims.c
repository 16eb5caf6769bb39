/* Claims stand on snaps: each cites some, of its own kind, once. */
#include "check/check_parts.h"
#include "source/xml.h"

static Place cite_place(const Cite *cite) {
    return xml_tag_value_place(cite->place, "snap");
}

static const char *snap_name(const Check *check, const Cite *cite) {
    return check->dossier->snaps[cite->snap].name;
}

static void check_bare(const Check *check, const Claim *claim) {
    if (claim->cite_count) return;
    diag_report(check->diagnostics, RULE_CLAIM_BARE, claim->place, "write <cite snap=\"g1.14\">what it shows</cite>",
                "the claim '%s' cites no snap", claim->id);
}

static void report_outside(const Check *check, const Claim *claim, const Cite *cite, bool unknown) {
    const char *hint = unknown ? "something that the slice asks for was not charted" : NULL;
    diag_report(check->diagnostics, RULE_CLAIM_CITE, cite_place(cite), hint,
                "%s %s of the slice '%s', which '%s' is about", snap_name(check, cite),
                unknown ? "cannot be told to be" : "is not", check->profile->slices[claim->slice].id, claim->id);
}

static void check_inside(const Check *check, const Claim *claim) {
    if (claim->slice < 0) return;
    const Expr *where = check->profile->slices[claim->slice].where;
    for (size_t i = 0; where && i < claim->cite_count; i++) {
        const Cite *cite = &claim->cites[i];
        if (cite->snap < 0) continue;
        uint8_t truth;
        expr_select(where, &check->dossier->columns, (size_t)cite->snap, 1, &truth);
        if (truth == TRUTH_UNKNOWN && check->values_lost) continue;
        if (truth != TRUTH_TRUE) report_outside(check, claim, cite, truth == TRUTH_UNKNOWN);
    }
}

/* Cites by row, as far as the claims have been read. */
typedef struct Cited {
    const Cite *latest[2]; /* by kind of claim: the last that does not speak against its claim */
    const Claim *claim[2];
    const Claim *seen; /* the claim that cited it last */
    const Cite *seen_cite;
} Cited;

static void check_again(const Check *check, const Claim *claim, const Cite *cite, Cited *cited) {
    if (cited->seen == claim) {
        diag_report(check->diagnostics, RULE_CLAIM_CITE, cite_place(cite), NULL, "'%s' cites %s twice", claim->id,
                    snap_name(check, cite));
        diag_also(check->diagnostics, cite_place(cited->seen_cite), "the first is here");
    }
    cited->seen = claim;
    cited->seen_cite = cite;
}

static void check_both(const Check *check, const Claim *claim, const Cite *cite, Cited *cited) {
    ClaimKind other = claim->kind == CLAIM_STRENGTH ? CLAIM_CONCERN : CLAIM_STRENGTH;
    if (cite->against) return;
    if (cited->latest[other]) {
        diag_report(check->diagnostics, RULE_CLAIM_BOTH, cite_place(cite), NULL,
                    "%s is cited for a strength and for a concern", snap_name(check, cite));
        diag_also(check->diagnostics, cite_place(cited->latest[other]), "'%s' cites it here", cited->claim[other]->id);
    }
    cited->latest[claim->kind] = cite;
    cited->claim[claim->kind] = claim;
}

void check_claims(Check *check) {
    const Dossier *dossier = check->dossier;
    Cited *cited = ARENA_ARRAY(check->arena, dossier->snap_count, Cited);
    for (size_t i = 0; i < dossier->claim_count; i++) {
        const Claim *claim = &dossier->claims[i];
        check->checked.claims++;
        check->checked.cites += claim->cite_count;
        check_bare(check, claim);
        check_inside(check, claim);
        for (size_t k = 0; k < claim->cite_count; k++) {
            const Cite *cite = &claim->cites[k];
            if (cite->snap < 0) continue;
            check_again(check, claim, cite, &cited[cite->snap]);
            check_both(check, claim, cite, &cited[cite->snap]);
        }
    }
}
