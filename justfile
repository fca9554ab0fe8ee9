# Plain cargo lines with short names; `.ci/run` is the whole gate.

# Lists what there is.
default:
    @just --list

# Every test that needs nothing but Rust.
test:
    cargo test --workspace

# Gets Chromium and the accessibility checker, without which the browser tests are skipped.
browser:
    tests/browser/prepare.sh

# Writes the code in the one style.
style:
    cargo fmt --all

# Lints as the gate wants them.
lint:
    cargo clippy --workspace --all-targets -- -D warnings

# The documentation of every crate.
doc:
    RUSTDOCFLAGS="-D warnings" cargo doc --workspace --no-deps

# The plan of the first demo layout.
plan:
    cargo run --release -- plan layouts/lapwing.ron

# Compares the committed reference values with fresh ones; needs Python.
reference:
    tests/reference/regenerate.sh

# How long loading, checking and planning take.
bench:
    cargo bench -p bleedwright-benches --bench plan

# How that time grows with the number of parts.
growth:
    cargo bench -p bleedwright-benches --bench growth

# Fuzzes for a minute; needs a C++ compiler.
fuzz:
    mkdir -p tests/fuzz/corpus/load
    cp layouts/*.ron tests/layouts/broken/*.ron tests/fuzz/corpus/load/
    tests/fuzz/fuzz.sh tests/fuzz/corpus/load -max_total_time=60 -timeout=10 -max_len=16384 -dict=tests/fuzz/layout.dict

# The whole gate.
gate:
    .ci/run
