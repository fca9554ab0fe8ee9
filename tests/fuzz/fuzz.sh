#!/usr/bin/env bash
# Builds the fuzzer; with arguments it then runs it, and they are libFuzzer's.
#
#     tests/fuzz/fuzz.sh
#     tests/fuzz/fuzz.sh FOLDER -max_total_time=60 -dict=tests/fuzz/layout.dict
#
# The crates forbid unsafe code, so that an address sanitizer would only make the runs fewer. What is left to ask of the
# compiler, counters at every edge, stable Rust passes on to LLVM; several code units halve the time to build.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

target=$(realpath -m "${CARGO_TARGET_DIR:-target}")/fuzz
host=$(rustc -vV | sed -n 's/^host: //p')
coverage=-sanitizer-coverage
export RUSTFLAGS="--cfg fuzzing -C debug-assertions -C codegen-units=16 -C passes=sancov-module \
-C llvm-args=$coverage-level=4 -C llvm-args=$coverage-inline-8bit-counters -C llvm-args=$coverage-pc-table \
-C llvm-args=$coverage-trace-compares"
# What the fuzzed crates need is pinned once; cargo adds what the fuzzer needs beside it.
[ tests/fuzz/Cargo.lock -nt Cargo.lock ] || cp Cargo.lock tests/fuzz/Cargo.lock
cargo build --manifest-path tests/fuzz/Cargo.toml --release --target "$host" --target-dir "$target"
if [ $# -gt 0 ]; then
    exec "$target/$host/release/load" "$@"
fi
