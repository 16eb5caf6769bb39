/* Values of one snap that cannot, or seldom do, stand together. Each row is a selection over the profile's fields; rows
 * that speak of fields a profile lacks are passed over. A snap is told of only when its values are known. */
#include "check/check_parts.h"

typedef struct Clash {
    const char *where;   /* the selection */
    const char *field;   /* what is underlined */
    const char *message; /* completes "g1.14: …" */
    const char *hint;    /* may be NULL */
    Rule rule;           /* CHART_CLASH: an error; CHART_ODD: a warning */
} Clash;

#define NEVER RULE_CHART_CLASH
#define SELDOM RULE_CHART_ODD

static const Clash clashes[] = {
    /* the field and the line to gain */
    {"@distance > @to-goal", "distance", "more yards to go than there are to the goal", "write distance=\"goal\"",
     NEVER},
    {"@gain > @to-goal", "gain", "a gain of more yards than there are to the goal", NULL, NEVER},
    {"0 - @gain > 100 - @to-goal", "gain", "a loss of more yards than there are behind the ball", NULL, NEVER},
    {"@touchdown='yes' and (@result='complete' or @result='run' or @result='scramble') and @gain != @to-goal and "
     "not(@fumble='kept')",
     "gain", "a touchdown that does not gain exactly the yards to the goal", NULL, NEVER},
    {"@touchdown='no' and @gain = @to-goal and not(@fumble='kept' or @fumble='lost')", "touchdown",
     "a gain of all the yards to the goal, and no touchdown", NULL, SELDOM},
    {"@down = 1 and @goal-to-go='yes' and @to-goal > 25", "distance", "first and goal from beyond the 25",
     "the distance of a first down is 10, or goal from the 10 and nearer", SELDOM},

    /* how the play ended */
    {"@result='complete' and @placement='away'", "placement", "caught, and placed where nobody could reach it", NULL,
     NEVER},
    {"@result='complete' and @gain < @depth - 5 and not(@fumble='kept' or @fumble='lost')", "gain",
     "caught, and more than five yards lost after the catch", "depth is measured to the catch or the point aimed at",
     SELDOM},
    {"@result='incomplete' and @gain != 0", "gain", "incomplete, with a gain", NULL, NEVER},
    {"@result='incomplete' and @touchdown='yes'", "touchdown", "incomplete, with a touchdown of the offence", NULL,
     NEVER},
    {"@result='intercepted' and @touchdown='yes'", "touchdown", "intercepted, with a touchdown of the offence",
     "touchdown is the offence's own", NEVER},
    {"@result='sack' and @gain > 0", "gain", "a sack that gains yards", NULL, NEVER},
    {"@result='sack' and @touchdown='yes'", "touchdown", "a sack, with a touchdown of the offence", NULL, NEVER},
    {"@result='sack' and @pressure='none' and not(@pressure-from='held-it')", "pressure", "a sack without pressure",
     "a sack is at least a hurry, unless he held the ball: pressure-from=\"held-it\"", SELDOM},
    {"@result='spike' and @gain != 0", "gain", "a spike with a gain", NULL, NEVER},
    {"@result='spike' and @down = 4", "down", "a spike on fourth down", NULL, SELDOM},
    {"@result='kneel' and @gain > 0", "gain", "a kneel that gains yards", NULL, SELDOM},
    {"@result='no-play' and @touchdown='yes'", "touchdown", "wiped out by a penalty, with a touchdown", NULL, NEVER},
    {"@result='no-play' and (@penalty='none' or @penalty='declined')", "penalty",
     "wiped out by a penalty, and no penalty that was taken", NULL, SELDOM},
    {"@penalty='offset' and not(@result='no-play')", "result", "penalties on both sides, and the play stands", NULL,
     SELDOM},

    /* what was called, and what came of it */
    {"@play='run' and (@result='complete' or @result='incomplete' or @result='intercepted')", "result",
     "a run that ended as a throw", "a run and a pass called together is play=\"rpo\"", NEVER},
    {"@play='run' and (@result='sack' or @result='scramble')", "result", "a run that ended as a pass play does",
     "a scramble is a called pass that he ran with", NEVER},
    {"(@play='pass' or @play='play-action') and @result='run'", "result", "a called pass that ended as a called run",
     "a pass that he ran with is a scramble", NEVER},
    {"@play='spike' and not(@result='spike' or @result='no-play')", "result",
     "called as a spike, and ended as something else", NULL, NEVER},
    {"@result='spike' and @play!='spike'", "play", "ended as a spike, and called as something else", NULL, NEVER},
    {"@play='kneel' and not(@result='kneel' or @result='no-play')", "result",
     "called as a kneel, and ended as something else", NULL, NEVER},
    {"@result='kneel' and @play!='kneel'", "play", "ended as a kneel, and called as something else", NULL, NEVER},

    /* the passer */
    {"@drop='0' and @read >= 2", "read", "caught and threw at once, on a later read", NULL, SELDOM},
    {"@timing='early' and @read >= 4", "read", "thrown before the break, on the fourth read or later", NULL, SELDOM},
    {"@depth > @to-goal + 10", "depth", "aimed past the end line", NULL, SELDOM},

    /* the two pictures */
    {"(@formation='i' or @formation='split') and (@personnel='00' or @personnel='01' or @personnel='02' or "
     "@personnel='10' or "
     "@personnel='11' or @personnel='12' or @personnel='13')",
     "formation", "two backs behind the passer, with fewer than two in the game", NULL, SELDOM},
    {"@coverage='0' and @rushers <= 3", "rushers", "nobody deep, and three rushers or fewer", NULL, SELDOM},
    {"@coverage='prevent' and @rushers >= 5", "rushers", "three or four deep at twenty, and five rushers or more", NULL,
     SELDOM},
    {"@shell='0-high' and @highs='2-high'", "coverage", "two safeties deep at the end, and none at the snap", NULL,
     SELDOM},
    {"(@pressure-call='simulated' or @pressure-call='creeper') and @rushers != 4", "rushers",
     "a pressure that rushes four, with another number of rushers", NULL, SELDOM},
    {"(@pressure-call='blitz' or @pressure-call='fire') and @rushers < 5", "rushers",
     "a pressure that rushes five or more, with fewer", NULL, SELDOM},

    /* other positions */
    {"@targeted='yes' and @result='run'", "targeted", "thrown to, on a called run", NULL, NEVER},
    {"@catch='caught' and not(@result='complete' or @result='no-play')", "catch",
     "caught, and the pass was not completed", NULL, NEVER},
    {"@ball='intercepted' and not(@result='intercepted' or @result='no-play')", "ball",
     "intercepted, and the play did not end so", NULL, NEVER},
    {"@allowed='sack' and not(@result='sack' or @result='no-play')", "allowed",
     "a sack allowed, and the play did not end so", NULL, NEVER},
    {"@effect='sack' and not(@result='sack' or @result='no-play')", "effect",
     "a sack made, and the play did not end so", NULL, NEVER},
    {"@rep='won' and @allowed!='none'", "allowed", "the rep was won, and pressure allowed", NULL, SELDOM},
    {"@tackle='solo' and (@at - @gain > 2 or @gain - @at > 2)", "at",
     "a tackle more than two yards from where the play ended", NULL, SELDOM},
    {"@contact > @gain", "contact", "first touched past the end of the play", "was he driven back past his progress?",
     SELDOM},
    {"@job='carry' and not(@result='run' or @result='no-play')", "job",
     "he carried, and the play did not end as a called run", NULL, SELDOM},
    {"@job='pass-block' and @result='run'", "job", "in protection, on a called run",
     "a run and a pass called together is play=\"rpo\"", SELDOM},
    {"@job='rush' and @result='run'", "job", "he rushed the passer, and it was a called run",
     "who plays the run has job=\"fit\"", SELDOM},

    /* kicks. The hold is seven or eight yards back (common practice), and the posts stand ten behind the goal line */
    {"@kick='field-goal' and (@yards - @to-goal < 16 or @yards - @to-goal > 19)", "yards",
     "a kick whose length does not fit its spot", "the yards to the goal line, ten, and the seven or eight of the hold",
     SELDOM},
    {"(@kick='kickoff' or @kick='onside') and (@result='good' or @result='wide-left' or @result='wide-right' or "
     "@result='short' or @result='hit-post')",
     "result", "a kickoff that ended as a field goal does", NULL, NEVER},
    {"(@kick='field-goal' or @kick='try') and (@result='touchback' or @result='fair-catch' or @result='recovered')",
     "result", "a field goal or try that ended as a kickoff does", NULL, SELDOM},
    {"@gross > @to-goal", "gross", "a punt longer than the yards to the goal",
     "one into the end zone counts to the goal line", NEVER},
    {"@result='touchback' and @gross < @to-goal", "gross", "a touchback short of the goal line", NULL, SELDOM},
    {"@choice='return' and (@result='fair-catch' or @result='downed' or @result='touchback')", "result",
     "he returned it, and the kick did not end so", NULL, NEVER},
    {"not(@choice='return') and @result='returned' and @caught!='none'", "choice",
     "returned, and he chose something else", NULL, NEVER},
    {"@touchdown='yes' and @choice='return' and @start + @ret != 100", "ret",
     "a touchdown that does not go to the other goal line", NULL, NEVER},
};

enum { CLASH_COUNT = sizeof clashes / sizeof clashes[0] };

/* The row compiled, or NULL where the profile lacks a field or value of it; errors go to `unheard`. */
static const Expr *compile(Arena *arena, const Profile *profile, const Clash *clash, Diagnostics *unheard) {
    if (profile_field(profile, clash->field) < 0) return NULL;
    return expr_compile(arena, profile, profile->field_count, EXPR_SELECTION, clash->where, (Place){0}, unheard);
}

static void report(const Check *check, const Clash *clash, size_t row) {
    Place place = check_value_place(check, profile_field(check->profile, clash->field), row);
    diag_report(check->diagnostics, clash->rule, place, clash->hint, "%s: %s", check->dossier->snaps[row].name,
                clash->message);
}

void check_clashes(Check *check) {
    const Columns *columns = &check->dossier->columns;
    if (columns->rows == 0) return;
    uint8_t *truth = ARENA_ARRAY(check->arena, columns->rows, uint8_t);
    Diagnostics *unheard = diag_new();
    for (size_t i = 0; i < CLASH_COUNT; i++) {
        const Expr *where = compile(check->arena, check->profile, &clashes[i], unheard);
        if (!where) continue;
        check->checked.clashes++;
        expr_select(where, columns, 0, columns->rows, truth);
        for (size_t row = 0; row < columns->rows; row++) {
            if (truth[row] != TRUTH_TRUE) continue;
            report(check, &clashes[i], row);
            if (clashes[i].rule == RULE_CHART_CLASH) check->clashed[row] = 1;
        }
    }
    diag_free(unheard);
}

size_t check_clash_rows(void) {
    return CLASH_COUNT;
}

bool check_clash_fits(const Profile *profile, size_t row) {
    Arena *arena = arena_new();
    Diagnostics *unheard = diag_new();
    bool fits = compile(arena, profile, &clashes[row], unheard) != NULL;
    diag_free(unheard);
    arena_free(arena);
    return fits;
}

size_t check_clash_count(const Profile *profile) {
    Arena *arena = arena_new();
    Diagnostics *unheard = diag_new();
    size_t count = 0;
    for (size_t i = 0; i < CLASH_COUNT; i++) count += compile(arena, profile, &clashes[i], unheard) != NULL;
    diag_free(unheard);
    arena_free(arena);
    return count;
}
