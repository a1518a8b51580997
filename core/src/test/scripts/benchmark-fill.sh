#!/bin/sh
# Times the water stage and scikit-image's fill of the same ground on this machine, one after the
# other, and prints how many times as fast. Needs Maven, JDK 17, and Python 3 with scikit-image.
#
#   core/src/test/scripts/benchmark-fill.sh [CELLS_A_SIDE]     (default 4000: 16 million cells)
set -eu
side=${1:-4000}
root=$(cd "$(dirname "$0")/../../../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$root"
mvn -q -B -pl core test-compile dependency:build-classpath -Dmdep.outputFile="$work/classpath" \
    -Dmdep.includeScope=test
classes="core/target/test-classes:core/target/classes:$(cat "$work/classpath")"
java -Xmx4g -cp "$classes" org.yardfall.benchmark.FractalGround "$work/ground" "$side"
java -cp "$classes" org.openjdk.jmh.Main WaterBenchmark -p side="$side" -rf json \
    -rff "$work/jmh.json" > "$work/jmh.log" || { cat "$work/jmh.log"; exit 1; }
${PYTHON:-/usr/bin/python3} core/src/test/scripts/benchmark_fill.py "$work/ground" "$side" \
    "$work/jmh.json"
