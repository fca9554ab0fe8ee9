#!/usr/bin/env bash
# Regenerates the reference values and compares them with the committed ones.
#
#     tests/reference/regenerate.sh                 fails with a diff where they differ
#     tests/reference/regenerate.sh --write         replaces the committed ones
#     tests/reference/regenerate.sh --long FOLDER   compares, and puts the many cases of which few are committed into
#                                                   FOLDER; with its whole path in BLEEDWRIGHT_REFERENCE the tests
#                                                   `reference_network`, `reference_stroke` and `pedal::readings`
#                                                   read these
#
# Every folder beside this script with a `generate.py` takes part. The script
# is given a folder and writes its JSON files there, and into `long` below it
# what is too much to commit; `requirements.txt` pins
# what it needs. JSON files that it reads instead, from beside itself, are named
# in `reads.txt`, one a line. Where values differ in their last digits from
# processor to processor, `same.py` tells whether two files are the same. Nothing is installed outside a temporary folder.
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
python=${PYTHON:-python3}
most_lines=200
write=false
long=
case "$#:${1:-}" in
    0:) ;;
    1:--write) write=true ;;
    2:--long) long=$2 ;;
    *)
        echo "usage: $0 [--write | --long FOLDER]" >&2
        exit 2
        ;;
esac

if ! command -v "$python" >/dev/null; then
    echo "error: $python is needed to regenerate the reference values" >&2
    exit 1
fi

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
export PYTHONDONTWRITEBYTECODE=1 PIP_DISABLE_PIP_VERSION_CHECK=1
# Packages of the machine must not stand in for the pinned ones.
unset PYTHONPATH PYTHONHOME

# Installs the requirements $2 below $1, and sets the command `run` to a Python
# that sees them. Debian ships Python without the means to make a virtual
# environment; pip's own --target does as well there.
install() {
    local place=$1 requirements=$2
    if "$python" -m venv "$place/venv" >"$place/log" 2>&1; then
        run=("$place/venv/bin/python")
        "${run[@]}" -m pip install --quiet --requirement "$requirements" >>"$place/log" 2>&1 && return
    elif "$python" -m pip install --quiet --target "$place/packages" \
        --requirement "$requirements" >>"$place/log" 2>&1; then
        run=(env "PYTHONPATH=$place/packages" "$python")
        return
    fi
    cat "$place/log" >&2
    echo "error: cannot install $requirements" >&2
    return 1
}

# Compares one folder of values; says what differs.
compare() {
    local name=$1 committed=$2 fresh=$3 differs=0
    local -A files=()
    local path
    for path in "$committed"/*.json "$fresh"/*.json; do
        if [ -e "$path" ]; then files[${path##*/}]=1; fi
    done
    local file
    if [ -e "$committed/reads.txt" ]; then
        while IFS= read -r file; do
            if [ ! -e "$committed/$file" ]; then
                echo "$name/$file is named in reads.txt, but there is no such file" >&2
                differs=1
            elif [ ! -e "$fresh/$file" ]; then
                unset "files[$file]"
            fi
        done <"$committed/reads.txt"
    fi
    while IFS= read -r file; do
        if [ ! -e "$fresh/$file" ]; then
            echo "$name/$file is committed, but generate.py does not write it" >&2
            differs=1
        elif [ ! -e "$committed/$file" ]; then
            echo "$name/$file is not committed" >&2
            differs=1
        elif [ -e "$committed/same.py" ] && "$python" "$committed/same.py" "$committed/$file" "$fresh/$file"; then
            continue
        elif ! cmp -s "$committed/$file" "$fresh/$file"; then
            echo "$name/$file differs from what generate.py writes:" >&2
            diff -u --label "committed $name/$file" --label "regenerated $name/$file" \
                "$committed/$file" "$fresh/$file" >"$scratch/diff" || true
            head -n "$most_lines" "$scratch/diff" >&2
            local all
            all=$(wc -l <"$scratch/diff")
            if [ "$all" -gt "$most_lines" ]; then
                echo "... and $((all - most_lines)) more lines" >&2
            fi
            differs=1
        fi
    done < <(printf '%s\n' "${!files[@]}" | sort)
    return "$differs"
}

failed=0
found=0
for script in "$here"/*/generate.py; do
    [ -e "$script" ] || continue
    found=$((found + 1))
    folder=$(dirname "$script")
    name=$(basename "$folder")
    place="$scratch/$name"
    mkdir -p "$place/fresh"
    install "$place" "$folder/requirements.txt"
    "${run[@]}" "$script" "$place/fresh"
    if ! compgen -G "$place/fresh/*.json" >/dev/null; then
        echo "error: $name/generate.py wrote no JSON file" >&2
        exit 1
    fi
    if [ -n "$long" ] && [ -e "$place/fresh/long" ]; then
        mkdir -p "$long/$name"
        cp "$place/fresh/long"/*.json "$long/$name/"
    fi
    if "$write"; then
        cp "$place/fresh"/*.json "$folder/"
        echo "$name: written"
    elif compare "$name" "$folder" "$place/fresh"; then
        echo "$name: as committed"
    else
        failed=$((failed + 1))
    fi
done

if [ "$found" -eq 0 ]; then
    echo "error: there is no generate.py below $here" >&2
    exit 1
fi
if [ "$failed" -gt 0 ]; then
    echo "$failed of $found folders differ; if the new values are right, run $0 --write" >&2
    exit 1
fi
