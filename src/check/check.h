/* Checks of a dossier that is well-formed and whose words are the profile's: of the chart against itself and against
 * the official box score, of clips, measurements, claims, grades and the report. Rules are rows of base/diag_rules.h.
 *
 * Requires a dossier as dossier_load returns it, with or without errors. Changes nothing; provides findings. */
#ifndef TB_CHECK_CHECK_H
#define TB_CHECK_CHECK_H

#include "base/diag.h"
#include "source/dossier.h"

void check_dossier(const Dossier *dossier, Diagnostics *diagnostics);

#endif
