#!/bin/sh
# Times the water stage and scikit-image's fill of the same ground on this machine, one after the
# other, and prints how many times as fast; how the stage grows from 1 million cells; and reading the
# ground as a GeoTIFF beside GDAL's own read. Needs Maven, JDK 17, GDAL's tools, and Python 3 with
# scikit-image. ROUNDS="-wi 1 -i 1" makes it short.
#
#   core/src/test/scripts/benchmark-fill.sh [CELLS_A_SIDE]     (default 4000: 16 million cells)
set -eu
side=${1:-4000}
root=$(cd "$(dirname "$0")/../../../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$root"
mvn -q -B -Pquick -pl core test-compile dependency:build-classpath -Dmdep.outputFile="$work/classpath" \
    -Dmdep.includeScope=test
classes="core/target/test-classes:core/target/classes:$(cat "$work/classpath")"
java -Xmx4g -cp "$classes" org.yardfall.benchmark.FractalGround "$work/ground" "$side"
# shellcheck disable=SC2086
java -cp "$classes" org.openjdk.jmh.Main WaterBenchmark -p side=1000,"$side" ${ROUNDS:-} -rf json \
    -rff "$work/jmh.json" > "$work/jmh.log" || { cat "$work/jmh.log"; exit 1; }
cat > "$work/ground.vrt" <<END
<VRTDataset rasterXSize="$side" rasterYSize="$side"><SRS>EPSG:26915</SRS>
<GeoTransform>500000,1,0,5000000,0,-1</GeoTransform>
<VRTRasterBand dataType="Float32" band="1" subClass="VRTRawRasterBand">
<SourceFilename relativeToVRT="1">ground</SourceFilename><ImageOffset>0</ImageOffset>
<PixelOffset>4</PixelOffset><LineOffset>$((side * 4))</LineOffset><ByteOrder>LSB</ByteOrder>
</VRTRasterBand></VRTDataset>
END
gdal_translate -q -co COMPRESS=DEFLATE -co TILED=YES "$work/ground.vrt" "$work/ground.tif"
java -Xmx4g -Dcom.sun.media.jai.disableMediaLib=true -cp "$classes" \
    org.yardfall.benchmark.ReadTime "$work/ground.tif" > "$work/read"
${PYTHON:-/usr/bin/python3} core/src/test/scripts/benchmark_fill.py "$work/ground" "$side" \
    "$work/jmh.json" "$work/ground.tif" "$work/read"
