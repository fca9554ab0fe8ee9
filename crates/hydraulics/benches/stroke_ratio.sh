#!/usr/bin/env bash
# Runs the same pedal stroke at the same tolerance here and in SciPy, and prints
# how many times as long SciPy's LSODA takes, once with its loop in compiled code
# (odeint) and once with the loop in Python (solve_ivp). Needs Python 3 and its package index; PYTHON
# names another Python, and one that has SciPy is used as it is.
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
python=${PYTHON:-python3}
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

if ! "$python" -c "import scipy" 2>/dev/null; then
    "$python" -m venv "$scratch/venv"
    python="$scratch/venv/bin/python"
    "$python" -m pip install --quiet --disable-pip-version-check \
        --requirement "$here/../../../tests/reference/stroke/requirements.txt"
fi

cd "$here/../../.."
cargo bench --quiet -p bleedwright-hydraulics --bench stroke >"$scratch/ours"
"$python" "$here/stroke_scipy.py" >"$scratch/theirs"
# Once more, so that a change of load between the two shows.
cargo bench --quiet -p bleedwright-hydraulics --bench stroke >"$scratch/again"

echo "name, median in microseconds, steps (SciPy: evaluations)"
cat "$scratch/ours" "$scratch/theirs"
awk '
    $1 == "three_lines_1e-8" { ours[++runs] = $2 }
    $1 ~ /^scipy_lsoda_/ { theirs[$1] = $2 }
    END {
        for (name in theirs) {
            printf "ratio %s / here: %.1f", name, theirs[name] / ours[1]
            printf " (%.1f with a second run here)\n", theirs[name] / ours[2]
        }
    }' "$scratch/ours" "$scratch/theirs" "$scratch/again"
