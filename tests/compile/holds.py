#!/usr/bin/env python3
"""Whether a PDF's text holds every line of a file, whatever its lines and hyphens: holds.py PDF SAYS. Prints what is missing."""
import re
import subprocess
import sys
import unicodedata


def plain(text):
    """Without spaces, hyphens (a reader of PDF joins what a line parts), and the difference between a letter and its parts."""
    return re.sub(r"[-\s\u00ad]+", "", unicodedata.normalize("NFC", text))


pdf, says = sys.argv[1:]
text = plain(subprocess.run(["pdftotext", "-enc", "UTF-8", pdf, "-"], check=True, capture_output=True).stdout.decode())
missing = [line for line in open(says, encoding="utf-8").read().splitlines() if plain(line) not in text]
for line in missing[:20]:
    print(f"not in the text: {line}")
sys.exit(bool(missing))
