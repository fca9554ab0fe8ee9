#!/usr/bin/env bash
# Gets what the browser tests need: Chromium from the system's packages, and
# the accessibility checker, pinned and compared with its fingerprint, into the
# build folder. Run it once; afterwards `cargo test` needs no network.
set -euo pipefail
cd "$(dirname "$0")/../.."

version=4.14.1
fingerprint=e6b0ce02b84d892e2e33e403485e7f3d6c29e2be6df65daf44d89ba564139745
folder=$(realpath -m "${CARGO_TARGET_DIR:-target}")/browser

missing=()
command -v chromium chromium-browser google-chrome >/dev/null ||
    missing+=(chromium fonts-liberation)
command -v npm >/dev/null || [ -e "$folder/axe.min.js" ] || missing+=(npm)
if [ "${#missing[@]}" -gt 0 ]; then
    if [ "$(id -u)" -ne 0 ]; then
        echo "error: install ${missing[*]} with your system's package manager, then run this again" >&2
        exit 1
    fi
    apt-get update -q
    DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "${missing[@]}"
fi

if [ ! -e "$folder/axe.min.js" ]; then
    scratch=$(mktemp -d)
    trap 'rm -rf "$scratch"' EXIT
    npm pack --silent --pack-destination "$scratch" "axe-core@$version" >/dev/null
    echo "$fingerprint  $scratch/axe-core-$version.tgz" | sha256sum --check --quiet
    tar -xzf "$scratch/axe-core-$version.tgz" -C "$scratch" package/axe.min.js
    mkdir -p "$folder"
    mv "$scratch/package/axe.min.js" "$folder/axe.min.js"
fi
