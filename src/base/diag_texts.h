/* What stands behind each rule: TEXT(NAME, "what it finds", "why it matters", "source that breaks it", "how to mend
 * it"). In order of diag_rules.h. */

/* the call and the system */
TEXT(FILE_READ,
     "A file that was named cannot be opened or read: it is not there, it is a folder or a device, or the system "
     "refuses it.",
     "Nothing can be said of a dossier that was not read, so the call ends with status 2 and not with a clean bill.",
     "tapebound check season/vashti.xlm", "Mind the spelling of the path, and that the file may be read.")
TEXT(FILE_WRITE,
     "An output cannot be written whole: the disk is full, the folder is not there or may not be written to.",
     "A report that is cut off looks like a whole one. The old file stays as it was until the new one is whole.",
     "tapebound compile vashti.xml -o /nowhere/vashti.pdf", "Make room or the folder, or name another place with -o.")
TEXT(CALL, "An option names a part that no layout has, or leaves nothing to print.",
     "A copy that was to be without the medical notes, and is not because of a slip in the call, would go out.",
     "tapebound compile vashti.xml --omit medcal -o copy.pdf", "Use the word that the message names.")

/* well-formed and safe */
TEXT(XML_SYNTAX,
     "The file breaks a rule of XML itself: a tag that is not closed, a quote that is missing, a lone ampersand.",
     "Until it is mended nobody can tell which words are text and which are markup.",
     "<school>Harrow & Valley</school>",
     "Write &amp; for an ampersand and &lt; for a less-than sign; close each tag with one of the same name.")
TEXT(XML_UNSAFE,
     "The file has a construct that can make a reader fetch, open or blow up something: a DOCTYPE, an entity of its "
     "own, an "
     "include, or a chart file outside the dossier's own folder.",
     "Dossiers come by mail. None needs any of these, so that none of them is obeyed.",
     "<!DOCTYPE dossier [<!ENTITY all SYSTEM \"/etc/passwd\">]>",
     "Take it out; write the characters themselves, and put chart files beside the dossier.")
TEXT(
    XML_LIMIT, "The file is larger, deeper, or has more elements or attributes than a hundred seasons would.",
    "Bounds are what keeps a hostile or broken file from taking the machine with it. The README has the table of them.",
    "<em><em><em><em> … more than 32 deep … </em></em></em></em>",
    "A real dossier comes nowhere near the bounds: look for a program that wrote the file wrongly, or split it.")
TEXT(XML_ENCODING, "The file is not UTF-8 text, or says that it is something else, or holds bytes that no text has.",
     "Names come out wrong on the page when letters are guessed at.", "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>",
     "Save it as UTF-8; every editor can.")

/* structure */
TEXT(FORMAT_VERSION, "The root element asks for a newer format than this program knows, or for none.",
     "A newer format may say things that this program would silently leave out.",
     "<dossier format=\"2\" id=\"qb-vashti\" profile=\"quarterback\">",
     "Use a program that knows the format; for this one write format=\"1\".")
TEXT(ELEMENT_UNKNOWN, "An element stands where the format has none of that name, or stands out of order.",
     "What is not read is not printed, and nobody would notice.", "<dossier …><players position=\"QB\">",
     "The message says what may stand there, and which spelling is nearest.")
TEXT(ELEMENT_MISSING, "An element that every file of this kind needs is not there.",
     "A report without its subject, filing or bottom line is none.",
     "<dossier …><player position=\"QB\">…</player></dossier>", "Add the element that the message names.")
TEXT(ATTRIBUTE_UNKNOWN, "An element has an attribute that the format does not know there.",
     "A misspelt attribute would be a value that was never read.", "<filing by=\"rk\" date=\"2031-11-18\"/>",
     "The message names the nearest spelling; on snaps the profile's fields are the attributes.")
TEXT(ATTRIBUTE_MISSING, "An element lacks an attribute that it needs.",
     "Without it the element says nothing that could be used.", "<filing by=\"rk\"/>",
     "Add the attribute that the message names.")
TEXT(ATTRIBUTE_VALUE, "An attribute's value is not of its form: a date that is none, a word that is not in the list.",
     "A value that is half understood is worse than none.", "<filing by=\"rk\" on=\"18.11.2031\"/>",
     "The message says what the value must look like.")
TEXT(CONTENT, "Text or elements stand in an element that holds none, or text is not of the form asked for.",
     "It would be lost without a word.", "<measurables>six foot four</measurables>",
     "Put the text where prose belongs, or into the attribute that is meant.")

/* the profile and other templates */
TEXT(TEMPLATE_MISSING, "A profile, set, layout, house or scale that is named cannot be found.",
     "The profile says what is charted and counted; without it no figure can be computed.",
     "<dossier format=\"1\" id=\"qb-vashti\" profile=\"quaterback\">",
     "The message lists or names the nearest of what there is.")
TEXT(PROFILE,
     "A profile contradicts itself: a name used twice, a measure of something that is not there, a circle of fields.",
     "Every figure of every dossier of the position rests on its profile.",
     "<slice id=\"man\" label=\"Man\" where=\"@family='man'\"/> <slice id=\"man\" …/>",
     "Mend the template at the place that the message points to.")
TEXT(EXPRESSION,
     "A selection or formula does not compile: a field or value that the profile does not have, text compared with a "
     "number, "
     "a parenthesis too few.",
     "In plain XPath a misspelt name is silently nothing, and the count silently 0.",
     "<slice id=\"deep\" label=\"Deep\" where=\"@deph >= 20\"/>",
     "The caret shows where, and the hint the nearest spelling.")
TEXT(PROFILE_FIGURE,
     "A figure of a profile cannot be drawn: a mean where a rate is drawn, a field that is no choice, more parts or "
     "columns than the page has room for, rungs that share snaps.",
     "The figure would be left out, or would show something else than its title says.",
     "<figure kind=\"throw-field\" lateral=\"side\" depth=\"depth-band\" measure=\"target-depth\"/>",
     "Bind another measure or field, or another kind of figure; interval rows show every kind of measure.")
TEXT(PROFILE_EMPTY,
     "A slice, total, measure, trait or field of a profile asks for snaps that there cannot be. It is found by making "
     "up "
     "many snaps at random within the fields' values, each field only where it applies.",
     "A slice that is always empty is a claim that is never tested; nobody sees that on the page of one player.",
     "<slice id=\"deep-sack\" label=\"Deep sacks\" where=\"@result='sack' and @depth >= 20\"/>",
     "Look at the condition of each field in it (when=\"…\"): a field that does not apply compares as false. A "
     "selection "
     "that holds for one snap in a million may be told of wrongly.")
TEXT(PROFILE_WEIGHTS, "The weights of a profile's traits do not sum to 100.",
     "They are read as shares of the whole grade, on the page too.",
     "<trait id=\"accuracy\" weight=\"15\">…</trait> <trait id=\"arm\" weight=\"7\">…</trait> and no more",
     "Share out what is missing or too much.")
TEXT(PROFILE_WORDS,
     "A field without words for the glossary, a slice without a phrase, a measure or trait without a definition, a "
     "total "
     "without a label.",
     "The page would print an id, or nothing where a reader looks for the meaning.",
     "<trait id=\"accuracy\" label=\"Accuracy\" weight=\"15\"/>",
     "Say in a sentence what it is: of a trait, at the position's bar.")
TEXT(PROFILE_UNUSED, "A set was checked that no profile of the templates uses.",
     "Its expressions speak of fields that other files declare, so that alone only its form can be checked.",
     "tapebound check sets/kicking-sides.xml", "Name it in a profile: <use set=\"…\"/>.")

/* vocabulary */
TEXT(FIELD_UNKNOWN, "A snap has an attribute that is no field of the profile.",
     "What is charted under a wrong name is counted nowhere.", "<snap n=\"14\" coverge=\"1-robber\"/>",
     "Take the nearest spelling that the hint names; a new field is added in the profile.")
TEXT(FIELD_VALUE, "A charted value is not one of its field's.", "A value of its own spelling falls out of every slice.",
     "<snap n=\"14\" coverage=\"1-rober\"/>", "Take one of the profile's values; the hint names the nearest.")
TEXT(FIELD_RANGE, "A charted number lies outside what the field can be.",
     "One slip of a digit moves an average further than a season does.", "<snap n=\"14\" down=\"5\"/>",
     "Look at the film again; the bounds stand in the profile.")
TEXT(FIELD_MISSING, "A field that the profile calls required is blank on a snap to which it applies.",
     "Blank is unknown: the snap is left out of every figure that asks for the field.",
     "<snap n=\"14\" play=\"pass\"/>", "Chart it; or take required away in the profile, if the club does not chart it.")
TEXT(FIELD_NOT_APPLICABLE, "A field is charted on a snap to which it does not apply.",
     "The value is not counted, which its charter may not expect.",
     "<snap n=\"14\" play=\"run\" result=\"run\" coverage=\"1-robber\"/>",
     "Take the value out, or mend what says that it does not apply.")

/* references */
TEXT(DUPLICATE, "The same id, or the same snap number of a game, stands twice.",
     "A cite of g1.14 must lead to one snap, and a snap that stands twice counts twice.",
     "<snap n=\"14\" …/> <snap n=\"14\" …/>", "Give each its own; the second place says where the other is.")
TEXT(REFERENCE,
     "A snap, slice, measure, trait, film or evaluator is named that the dossier, profile or house does not have.",
     "A cite that leads nowhere is a claim without its evidence.", "<cite snap=\"g1.41\">Holds the free safety</cite>",
     "The hint names the nearest that there is.")

/* the chart */
TEXT(CHART_ORDER, "Snap numbers, drives or quarters run backwards within a chart.",
     "The chain from snap to snap, drives and the order of a game are read from it.",
     "<snap n=\"15\" quarter=\"2\"/> <snap n=\"16\" quarter=\"1\"/>",
     "Put the snaps in the order in which they were played, or mend the number.")
TEXT(CHART_CLOCK,
     "Within a quarter the clock rises from a snap to a later one, or more than a minute runs off between two snaps "
     "that "
     "follow each other.",
     "One of the two clocks was misread, and two-minute figures rest on it.",
     "<snap n=\"14\" quarter=\"1\" clock=\"6:12\"/> <snap n=\"15\" quarter=\"1\" clock=\"6:40\"/>",
     "Look at the clock of both snaps. A clock that the officials put back is told in the snap's note.")
TEXT(CHART_CHAIN,
     "A snap's down, distance or spot does not follow from the snap before it in the drive: spot and gain say where "
     "the ball "
     "should lie.",
     "The gain or the spot is wrong, and with it yards and success.",
     "<snap n=\"14\" down=\"1\" distance=\"10\" spot=\"-25\" gain=\"4\" …/>\n<snap n=\"15\" down=\"2\" distance=\"6\" "
     "spot=\"-31\" …/>",
     "One of the two snaps has a slip; or a penalty lies between them that was not marked.")
TEXT(CHART_UNCHAINED,
     "A chart does not say that it marks penalties, so that spots and downs are not compared from snap to snap.",
     "The chain is the strongest check there is of a chart.", "<chart by=\"rk\"> … </chart>",
     "Write marks=\"touchdown fumble penalty\" in the chart, if they were marked.")
TEXT(CHART_CLASH, "Values of one snap contradict each other: they cannot both be true.",
     "A figure that counts either of them is wrong.", "<snap n=\"14\" play=\"pass\" result=\"incomplete\" gain=\"7\"/>",
     "One of the values is a slip: the film says which.")
TEXT(CHART_ODD, "Values of one snap seldom stand together, though they may.",
     "Most of them are slips; a real one is worth a second look anyway.",
     "<snap n=\"14\" result=\"sack\" pressure=\"none\"/>",
     "Look again. When it is right, leave it: the report lists what was let pass.")
TEXT(BOX_SCORE, "A total counted from the chart differs from the official one of the game.",
     "A general manager has the box score beside the report, and trusts neither when they differ without a word.",
     "<official attempts=\"33\"/> over a chart of 32 attempts",
     "The hint names the likeliest snaps. Where the official scorer ruled otherwise, leave it: it is printed.")
TEXT(CHART_DISAGREE, "Two charters of one game differ on the result or the gain of a snap.",
     "Those are matters of fact, and one of the two is wrong.",
     "<chart by=\"rk\"><snap n=\"14\" gain=\"7\" …/></chart> <chart by=\"lm\"><snap n=\"14\" gain=\"17\" …/></chart>",
     "Look at the film and mend the one that is wrong; figures are counted from the first chart.")
TEXT(CHART_DIFFER,
     "Two charters of one game read fields differently on some snaps that both charted; those in which they part most "
     "often are named.",
     "It says how far a field can be trusted; the report prints the agreement.",
     "coverage=\"1-robber\" in one chart, coverage=\"1-hole\" in the other",
     "Settle what the words mean between the charters. Nothing needs to be mended for the report.")
TEXT(CHART_UNMATCHED, "A second chart of a game has snaps that the first does not have.",
     "Snaps are matched by number: a number that slipped makes all snaps behind it compare with others.",
     "<chart by=\"rk\"> 1 2 3 4 </chart> <chart by=\"lm\"> 1 2 4 5 </chart>",
     "Give the same snap the same number in both; a second chart may leave out what it did not judge.")

/* clips */
TEXT(CLIP_TIME, "A clip does not end after its start, or lies outside the film whose length is given.",
     "A cut list made of it shows another play, or none.", "<snap n=\"14\" in=\"0:21:49\" out=\"0:21:40\"/>",
     "Mend in or out, or the length of the film.")
TEXT(CLIP_ODD, "A clip is longer than any play, or begins before the one before it on the same film ends.",
     "Two snaps on the same seconds are most likely one slip of a minute.",
     "<snap n=\"14\" in=\"0:21:40\" out=\"0:23:40\"/>", "Look at the times of both.")

/* measurables */
TEXT(NOTATION, "A measurement is not written in any way that the trade has for it.",
     "6043 is six foot four and three eighths; a reader must not guess.", "<measurable kind=\"height\" value=\"6'4\"/>",
     "The hint shows how it is written.")
TEXT(IMPOSSIBLE, "A measurement lies outside what any player has shown.", "It is a slip or a unit that was left out.",
     "<measurable kind=\"height\" value=\"194\"/>", "Metric is written with its unit: 194 cm.")
TEXT(IMPLAUSIBLE,
     "A measurement lies outside what players of the position show, or does not go with another of the same man.",
     "A ten-yard split slower than the twenty is a slip in one of them.",
     "<measurable kind=\"ten\" value=\"2.70\"/> <measurable kind=\"twenty\" value=\"2.60\"/>",
     "Look it up again. When it is right, leave it: it is what makes the player rare.")
TEXT(MEASURED_TWICE, "One measurement is given twice for one day, or twice without a day.",
     "The report can print but one of them.",
     "<measurable kind=\"forty\" value=\"4.81\"/> <measurable kind=\"forty\" value=\"4.74\"/>",
     "Give each its day with on=\"…\", or keep the one that counts.")

/* claims */
TEXT(CLAIM_BARE, "A strength or concern cites no snap.",
     "A claim is what the film shows; without a snap nobody can look it up.",
     "<strength id=\"man\" title=\"Sharper against man\" …><p>…</p></strength>",
     "Cite at least one: <cite snap=\"g1.14\">what it shows</cite>.")
TEXT(CLAIM_CITE, "A cited snap is not of the claim's own slice, or is cited twice by one claim.",
     "A throw against zone does not show what he does against man.",
     "<strength slice=\"man\" …><cite snap=\"g1.15\">a throw against zone</cite></strength>",
     "Cite another snap, or mend its chart.")
TEXT(CLAIM_BOTH, "One snap is cited for a strength and for a concern.", "It may show both; a reader will ask.",
     "<strength …><cite snap=\"g1.14\"/></strength> <concern …><cite snap=\"g1.14\"/></concern>",
     "Mark the one that speaks against its claim with against=\"yes\", or leave it.")
TEXT(CLAIM_TEST,
     "A claim cannot be held against the tape: its measure has no better side and no direction is given, or it is "
     "compared "
     "with a standard that the profile does not have.",
     "Every claim is tested on all charted snaps, and its verdict printed.",
     "<strength … measure=\"target-depth\"> without expect=\"more\" or \"less\"",
     "Say expect=\"more\" or expect=\"less\", or compare with a slice.")
TEXT(STAT,
     "A figure in prose cannot be computed: it names neither a measure nor a total, or a format that it does not have.",
     "A figure that is typed by hand grows old; one that cannot be computed is never left blank.",
     "<p>On target on <stat measure=\"on-target\" total=\"yards\"/> …</p>",
     "Name one measure or one total of the profile.")

/* grades and report */
TEXT(GRADE_SCALE,
     "A grade is not on the house's scale, or not on one of its steps; or the house's scale contradicts itself.",
     "A grade between two words of the scale means something else to each reader.",
     "<grade trait=\"accuracy\" value=\"6.3\"/> on a scale in steps of 0.5",
     "Take a grade of the scale; the hint names its ends and steps.")
TEXT(GRADE_MISSING, "The filing evaluator has not graded every trait of the profile, or nothing.",
     "A trait left blank reads like one that does not matter.",
     "<grades by=\"rk\"><grade trait=\"accuracy\" value=\"6.5\"/></grades>",
     "Grade it, or say in the text why it cannot be graded yet.")
TEXT(GRADE_OVERALL,
     "The overall grade is more than half a grade from its traits, as the profile weighs them, and no sentence says "
     "why.",
     "The first question in the room will be why.",
     "<overall value=\"8\" when=\"at-once\"/> over traits that weigh 6.1",
     "Write the reason into <overall>, or mend a grade.")
TEXT(REPORT_PLACEHOLDER, "A text still says TBD, or nothing.", "It is printed as it stands.",
     "<bottom-line><p>TBD</p></bottom-line>", "Write it, or take the part out.")
TEXT(REPORT_STALE, "A game or measurement is newer than the filing.", "The grades were given before it was seen.",
     "<filing by=\"rk\" on=\"2031-09-20\"/> <game id=\"g1\" on=\"2031-09-27\" …>",
     "File it anew with the next revision.")

/* the page */
TEXT(PAGE_GLYPH, "A character is printed as a box, because none of the fonts has it.",
     "A name with a hole in it is not that man's name.", "<family>\xE6\x96\x87</family>",
     "Write it in letters that the fonts have.")
TEXT(PAGE_OVERFULL, "A line, a cell or a figure is wider than its place, and nothing in it can be broken.",
     "It stands out over the margin or the next column.", "<p>a web address of two hundred letters</p>",
     "Shorten it, or let it break with a space.")

/* import */
TEXT(IMPORT_ROW, "A row of a table cannot be read, or gives a field a value that it does not have.",
     "A row that is left out silently is a snap that never was.", "…,\"an open quote,…",
     "Mend the row, or say in the map what its value means.")
TEXT(IMPORT_MAP, "The map does not fit the table or the profile: a column or field that is not there.",
     "Nothing is imported by guessing.", "<to field=\"down\" column=\"donw\"/>",
     "The hint names the nearest column or field.")
TEXT(IMPORT_REPEAT, "Rows of the table stand in it twice, and are taken once.",
     "A table appended to itself would double every total.", "the same file downloaded twice into one",
     "Nothing needs to be done.")
