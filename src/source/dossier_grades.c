/* Grades of one or more evaluators. */
#include <math.h>
#include <string.h>

#include "source/dossier_parts.h"

static void read_grade(DossierReader *reader, const XmlNode *node, Grades *grades) {
    int trait = dossier_refer_trait(reader, node, "trait");
    if (trait < 0) return;
    for (size_t i = 0; i < grades->count; i++) {
        if (grades->grades[i].trait != trait) continue;
        dossier_report_twice(reader, node, "trait", "the grade of", grades->grades[i].place);
        return;
    }
    grades->grades[grades->count++] = (Grade){
        .trait = trait,
        .value = attr_number(node, "value", NAN, reader->diagnostics),
        .note = node->first ? xml_text(reader->arena, node) : NULL,
        .place = node->place,
    };
}

static void check_when(DossierReader *reader, const XmlNode *node, const char *when) {
    const House *house = reader->house;
    if (!when || house->when_count == 0) return;
    for (size_t i = 0; i < house->when_count; i++) {
        if (strcmp(house->whens[i].id, when) == 0) return;
    }
    if (!dossier_may_report(reader)) return;
    diag_report(reader->diagnostics, RULE_REFERENCE, xml_value_place(node, "when"),
                NAMES_HINT(reader->arena, when, house->whens, house->when_count), "the house has no 'when' of '%s'",
                when);
}

static void read_overall(DossierReader *reader, const XmlNode *node, Grades *grades) {
    grades->overall = attr_number(node, "value", NAN, reader->diagnostics);
    grades->overall_place = node->place;
    grades->when = xml_value(node, "when");
    grades->fit = xml_value(node, "fit");
    grades->role = xml_value(node, "role");
    if (node->first) grades->says = xml_text(reader->arena, node);
    check_when(reader, node, grades->when);
}

static void read_grades(DossierReader *reader, const XmlNode *node) {
    Grades *grades = &reader->dossier->grades[reader->dossier->grades_count++];
    grades->by = attr_text(node, "by", "");
    grades->on = xml_value(node, "on");
    grades->overall = NAN;
    grades->place = node->place;
    dossier_refer_evaluator(reader, node, "by");
    grades->grades = ARENA_ARRAY(reader->arena, attr_children(node, "grade"), Grade);
    const XmlNode *grade = xml_child(node, "grade");
    for (; grade; grade = xml_next(grade, "grade")) read_grade(reader, grade, grades);
    const XmlNode *overall = xml_child(node, "overall");
    if (overall) read_overall(reader, overall, grades);
}

/* Who files the dossier comes first; the others keep their order. */
static void put_filing_first(Dossier *dossier) {
    for (size_t i = 0; i < dossier->grades_count; i++) {
        if (strcmp(dossier->grades[i].by, dossier->filing.by) != 0) continue;
        Grades own = dossier->grades[i];
        memmove(dossier->grades + 1, dossier->grades, i * sizeof own);
        dossier->grades[0] = own;
        return;
    }
}

void dossier_read_grades(DossierReader *reader, const XmlNode *root) {
    reader->dossier->grades = ARENA_ARRAY(reader->arena, attr_children(root, "grades"), Grades);
    const XmlNode *node = xml_child(root, "grades");
    for (; node; node = xml_next(node, "grades")) read_grades(reader, node);
    put_filing_first(reader->dossier);
}
