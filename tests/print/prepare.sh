#!/usr/bin/env bash
# Installs the reader that the printed cards are checked with beside our own:
# poppler's pdftotext, pdffonts and pdfinfo.
set -euo pipefail

for tool in pdftotext pdffonts pdfinfo; do
    if ! command -v "$tool" >/dev/null; then
        as_root=()
        [ "$(id -u)" -eq 0 ] || as_root=(sudo)
        "${as_root[@]}" apt-get update -qq
        "${as_root[@]}" apt-get install -y -qq --no-install-recommends poppler-utils
        break
    fi
done
