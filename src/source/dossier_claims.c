/* Claims: what is said of a player, against what, and the snaps it stands on. */
#include <string.h>

#include "source/dossier_parts.h"

static void complain(DossierReader *reader, Place place, const char *hint, const char *message) {
    if (dossier_may_report(reader)) diag_report(reader->diagnostics, RULE_CLAIM_TEST, place, hint, "%s", message);
}

static bool has_standard(const Profile *profile, int measure) {
    for (size_t i = 0; i < profile->standard_count; i++) {
        if (profile->standards[i].measure == measure) return true;
    }
    return false;
}

static int read_against(DossierReader *reader, const XmlNode *node, const Claim *claim) {
    const char *against = xml_value(node, "against");
    if (!against) return CLAIM_AGAINST_REST;
    Place place = xml_value_place(node, "against");
    if (strcmp(against, "standard") == 0) {
        if (claim->measure >= 0 && !has_standard(reader->profile, claim->measure)) {
            complain(reader, place, "hold it against another slice, or leave 'against' out to mean all other snaps",
                     "the profile has no standard for this measure");
        }
        return CLAIM_AGAINST_STANDARD;
    }
    int slice = dossier_refer_slice(reader, node, "against");
    if (slice >= 0 && slice == claim->slice) complain(reader, place, NULL, "the claim holds a slice against itself");
    return slice;
}

/* A strength says that its slice is the better one. Which way that is, the measure knows, or the claim says. */
static int read_direction(DossierReader *reader, const XmlNode *node, const Claim *claim) {
    const Measure *measure = claim->measure >= 0 ? &reader->profile->measures[claim->measure] : NULL;
    const char *expect = xml_value(node, "expect");
    if (expect && measure && measure->better != BETTER_NEITHER) {
        complain(reader, xml_value_place(node, "expect"), "leave 'expect' out",
                 "the measure itself says which side is better");
    } else if (!expect && measure && measure->better == BETTER_NEITHER) {
        complain(reader, xml_value_place(node, "measure"), "say expect=\"more\" or expect=\"less\"",
                 "neither more nor less is better on this measure");
    }
    if (expect) return strcmp(expect, "less") == 0 ? -1 : 1;
    int better = measure && measure->better == BETTER_LESS ? -1 : 1;
    return claim->kind == CLAIM_STRENGTH ? better : -better;
}

static void read_cites(DossierReader *reader, const XmlNode *node, Claim *claim) {
    claim->cites = ARENA_ARRAY(reader->arena, attr_children(node, "cite"), Cite);
    for (const XmlNode *cite = xml_child(node, "cite"); cite; cite = xml_next(cite, "cite")) {
        claim->cites[claim->cite_count++] = (Cite){
            .snap = dossier_refer_snap(reader, cite, "snap"),
            .against = attr_yes(cite, "against"),
            .text = xml_text(reader->arena, cite),
            .place = cite->place,
        };
    }
}

static void read_claim(DossierReader *reader, const XmlNode *node, ClaimKind kind, Names *names) {
    Dossier *dossier = reader->dossier;
    Claim *claim = &dossier->claims[dossier->claim_count];
    claim->kind = kind;
    claim->id = attr_text(node, "id", "");
    claim->title = attr_text(node, "title", claim->id);
    claim->place = node->place;
    int first = names_add(names, claim->id, (int)dossier->claim_count++);
    if (first >= 0) dossier_report_twice(reader, node, "id", "claim", dossier->claims[first].place);
    claim->slice = dossier_refer_slice(reader, node, "slice");
    claim->measure = dossier_refer_measure(reader, node, "measure");
    claim->against = read_against(reader, node, claim);
    claim->direction = read_direction(reader, node, claim);
    dossier_read_prose(reader, node, &claim->prose);
    read_cites(reader, node, claim);
}

void dossier_read_claims(DossierReader *reader, const XmlNode *root) {
    size_t most = attr_children(root, "strength") + attr_children(root, "concern");
    Names *names = names_new(reader->arena, most);
    reader->dossier->claims = ARENA_ARRAY(reader->arena, most, Claim);
    for (const XmlNode *node = root->first; node; node = node->next) {
        if (!node->name) continue;
        if (strcmp(node->name, "strength") == 0) read_claim(reader, node, CLAIM_STRENGTH, names);
        if (strcmp(node->name, "concern") == 0) read_claim(reader, node, CLAIM_CONCERN, names);
    }
}
