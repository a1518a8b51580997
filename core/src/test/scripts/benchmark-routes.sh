#!/bin/sh
# Times the ground, the gravity reach, a drain and the whole plan of routes over lots of growing size
# and draws time against cells. Needs Maven, JDK 17, and Python 3 with matplotlib.
#
#   core/src/test/scripts/benchmark-routes.sh PICTURE.png
set -eu
picture=${1:?where the picture goes}
case $picture in /*) ;; *) picture=$PWD/$picture ;; esac
root=$(cd "$(dirname "$0")/../../../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$root"
mvn -q -B -pl core test-compile dependency:build-classpath -Dmdep.outputFile="$work/classpath" \
    -Dmdep.includeScope=test
classes="core/target/test-classes:core/target/classes:$(cat "$work/classpath")"
java -Xmx2g -cp "$classes" org.openjdk.jmh.Main RouteBenchmark -foe true -wi 1 -i 2 -w 1 -r 1 -jvmArgs -Xmx2g \
    -rf json -rff "$work/jmh.json" > "$work/jmh.log" || { cat "$work/jmh.log"; exit 1; }
${PYTHON:-/usr/bin/python3} core/src/test/scripts/benchmark_routes.py "$work/jmh.json" "$picture"
