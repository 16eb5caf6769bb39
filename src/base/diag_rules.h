/* The table of rules: RULE(NAME, "stable-id", default severity, "what it finds"). Grouped by family, in order of
 * passes. */

/* the call and the system */
RULE(FILE_READ, "file-read", SEVERITY_ERROR, "a file cannot be read")
RULE(FILE_WRITE, "file-write", SEVERITY_ERROR, "a file cannot be written")
RULE(CALL, "call", SEVERITY_ERROR, "a call that asks for what is not there")

/* well-formed and safe */
RULE(XML_SYNTAX, "xml-syntax", SEVERITY_ERROR, "the XML is not well-formed")
RULE(XML_UNSAFE, "xml-unsafe", SEVERITY_ERROR,
     "a construct that a dossier never needs: DOCTYPE, entities, includes from outside")
RULE(XML_LIMIT, "xml-limit", SEVERITY_ERROR, "a file larger, deeper or denser than any real dossier")
RULE(XML_ENCODING, "xml-encoding", SEVERITY_ERROR, "bytes that are not UTF-8 text")

/* structure */
RULE(FORMAT_VERSION, "format-version", SEVERITY_ERROR, "a file of a newer format than this program knows")
RULE(ELEMENT_UNKNOWN, "element-unknown", SEVERITY_ERROR, "an element that does not belong here")
RULE(ELEMENT_MISSING, "element-missing", SEVERITY_ERROR, "a required element is missing")
RULE(ATTRIBUTE_UNKNOWN, "attribute-unknown", SEVERITY_ERROR, "an attribute that does not belong here")
RULE(ATTRIBUTE_MISSING, "attribute-missing", SEVERITY_ERROR, "a required attribute is missing")
RULE(ATTRIBUTE_VALUE, "attribute-value", SEVERITY_ERROR, "an attribute value of the wrong form")
RULE(CONTENT, "content", SEVERITY_ERROR, "text or content where none may stand")

/* the profile and other templates */
RULE(TEMPLATE_MISSING, "template-missing", SEVERITY_ERROR, "a profile, layout, house or scale that cannot be found")
RULE(PROFILE, "profile", SEVERITY_ERROR, "a profile that contradicts itself")
RULE(EXPRESSION, "expression", SEVERITY_ERROR, "an expression that does not compile")
RULE(PROFILE_FIGURE, "profile-figure", SEVERITY_ERROR, "a figure that cannot be drawn as the profile binds it")
RULE(PROFILE_EMPTY, "profile-empty", SEVERITY_WARNING, "a selection of a profile that no snap can satisfy")
RULE(PROFILE_WEIGHTS, "profile-weights", SEVERITY_WARNING, "weights of traits that do not sum to 100")
RULE(PROFILE_WORDS, "profile-words", SEVERITY_WARNING, "a part of a profile that would be printed without words")
RULE(PROFILE_UNUSED, "profile-unused", SEVERITY_NOTE, "a set that no profile uses")

/* vocabulary */
RULE(FIELD_UNKNOWN, "field-unknown", SEVERITY_ERROR, "a charted attribute that the profile does not have")
RULE(FIELD_VALUE, "field-value", SEVERITY_ERROR, "a charted value that the field does not have")
RULE(FIELD_RANGE, "field-range", SEVERITY_ERROR, "a charted number outside its range")
RULE(FIELD_MISSING, "field-missing", SEVERITY_WARNING, "a required field is not charted")
RULE(FIELD_NOT_APPLICABLE, "field-not-applicable", SEVERITY_NOTE, "a field charted where it does not apply")

/* references */
RULE(DUPLICATE, "duplicate", SEVERITY_ERROR, "the same id or number used twice")
RULE(REFERENCE, "reference", SEVERITY_ERROR, "a name that nothing in the dossier or profile has")

/* the chart */
RULE(CHART_ORDER, "chart-order", SEVERITY_WARNING, "snaps, drives or quarters out of order")
RULE(CHART_CLOCK, "chart-clock", SEVERITY_WARNING, "a clock that rises, or runs too long between two snaps")
RULE(CHART_CHAIN, "chart-chain", SEVERITY_WARNING, "down, distance or spot that do not follow from the snap before")
RULE(CHART_UNCHAINED, "chart-unchained", SEVERITY_NOTE, "a chart whose chain cannot be checked")
RULE(CHART_CLASH, "chart-clash", SEVERITY_ERROR, "values of one snap that cannot stand together")
RULE(CHART_ODD, "chart-odd", SEVERITY_WARNING, "values of one snap that seldom stand together")
RULE(BOX_SCORE, "box-score", SEVERITY_WARNING, "the chart and the official box score differ")
RULE(CHART_DISAGREE, "chart-disagree", SEVERITY_WARNING, "two charters differ on the result or gain of a snap")
RULE(CHART_DIFFER, "chart-differ", SEVERITY_NOTE, "fields that two charters read differently")
RULE(CHART_UNMATCHED, "chart-unmatched", SEVERITY_NOTE, "snaps of a second chart that the first does not have")

/* clips */
RULE(CLIP_TIME, "clip-time", SEVERITY_ERROR, "a clip whose times are not a stretch of film")
RULE(CLIP_ODD, "clip-odd", SEVERITY_WARNING, "a clip longer than any play, or over the seconds of another")

/* measurables */
RULE(NOTATION, "notation", SEVERITY_ERROR, "a measurement that cannot be read")
RULE(IMPOSSIBLE, "impossible", SEVERITY_ERROR, "a measurement that no human shows")
RULE(IMPLAUSIBLE, "implausible", SEVERITY_WARNING, "a measurement outside what the position shows, or against another")
RULE(MEASURED_TWICE, "measured-twice", SEVERITY_WARNING, "one measurement given twice for one day")

/* claims */
RULE(CLAIM_BARE, "claim-bare", SEVERITY_ERROR, "a claim that cites no snap")
RULE(CLAIM_CITE, "claim-cite", SEVERITY_WARNING, "a cited snap outside the claim's own snaps")
RULE(CLAIM_BOTH, "claim-both", SEVERITY_NOTE, "a snap cited for a strength and for a concern")
RULE(CLAIM_TEST, "claim-test", SEVERITY_ERROR, "a claim that cannot be tested")
RULE(STAT, "stat", SEVERITY_ERROR, "a figure in prose that cannot be computed")

/* grades and report */
RULE(GRADE_SCALE, "grade-scale", SEVERITY_ERROR, "a grade that is not on the house scale")
RULE(GRADE_MISSING, "grade-missing", SEVERITY_WARNING, "a trait of the profile is not graded")
RULE(GRADE_OVERALL, "grade-overall", SEVERITY_WARNING, "an overall grade far from its traits, and not explained")
RULE(REPORT_PLACEHOLDER, "report-placeholder", SEVERITY_WARNING, "prose left as a placeholder")
RULE(REPORT_STALE, "report-stale", SEVERITY_WARNING, "a filing older than its newest game or measurement")

/* the page */
RULE(PAGE_GLYPH, "page-glyph", SEVERITY_WARNING, "a character that no font has")
RULE(PAGE_OVERFULL, "page-overfull", SEVERITY_WARNING, "a line that does not fit its measure")

/* import */
RULE(IMPORT_ROW, "import-row", SEVERITY_ERROR, "a row of a table that cannot be read")
RULE(IMPORT_MAP, "import-map", SEVERITY_ERROR, "a map that does not fit the table or the profile")
RULE(IMPORT_REPEAT, "import-repeat", SEVERITY_NOTE, "rows of a table that stand in it twice")
